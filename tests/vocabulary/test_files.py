"""The files of the vocabulary: of their form, and such that they do not speak against each other."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import yaml
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

from kbtools.edges.shipped import PACKAGE, schema_files, tables
from kbtools.vocabulary.tables import shipped_words
from kbtools.vocabulary.whole import Vocabulary, stems_of
from tests.support.yaml_files import BASE

FILES = sorted((PACKAGE / "vocabulary" / "data").glob("*"))
KNOWN = Vocabulary(tables=tables())


def validator() -> Draft202012Validator:
    schemas = schema_files()
    resources = [(name, Resource.from_contents(schema)) for name, schema in schemas.items()]
    # `places` is true or false, and here every scalar is a text.
    schema = json.loads(json.dumps(schemas["vocabulary.schema.json"]).replace('"boolean"', '"string"'))
    return Draft202012Validator(schema, registry=Registry().with_resources(resources))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_a_file_has_the_form_of_its_schema(path: Path) -> None:
    text = path.read_text("utf-8")
    found = [
        f"{'/'.join(map(str, each.path))}: {each.message[:200]}"
        for each in validator().iter_errors(yaml.load(text, BASE))
    ]
    assert found == []


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_a_file_says_first_what_it_is_for_with_an_example(path: Path) -> None:
    """A curator who knows no Python opens it."""
    lines = path.read_text("utf-8").splitlines()
    head = lines[: next(at for at, line in enumerate(lines) if not line.startswith("#"))]
    assert len(head) > 3
    assert any(line.startswith("#     ") for line in head), "an example"


def test_each_kind_of_danger_of_the_schema_has_its_words() -> None:
    """A kind without a word would never be met."""
    kinds = schema_files()["vocabulary.schema.json"]["properties"]["danger"]["properties"]
    assert {kind for words in shipped_words(tables()) for kind, _ in words.dangers} == set(kinds)


def test_no_word_of_danger_is_called_harmless() -> None:
    files = shipped_words(tables())
    harmless = {stems_of(each) for words in files for each in words.harmless}
    dangers = {stems_of(each) for words in files for _, phrases in words.dangers for each in phrases}
    assert harmless.isdisjoint(dangers)


def test_no_group_stands_twice() -> None:
    groups = [(each.kind, frozenset(map(stems_of, each.phrases))) for each in KNOWN.groups]
    assert len(groups) == len(set(groups))
