"""Every rule explains itself with a sample that it finds, and every finding has a rule that explains it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from kbtools.diagnostics import Finding
from kbtools.edges.rulebook import rulebook
from kbtools.linting.explained import TODAY
from kbtools.linting.run import lint
from kbtools.rules import samples
from kbtools.rules.form import FORM
from kbtools.rules.rule import Rule
from kbtools.rules.shape import SHAPE
from tests.support.checked_samples import read_files

WITH_SAMPLE = [rule for rule in rulebook().rules if rule.sample is not None]


def check(files: dict[str, bytes]) -> list[Finding]:
    return lint(read_files(files), rulebook(), TODAY)


def test_the_sample_base_has_no_finding() -> None:
    assert check({path: text.encode() for path, text in samples.FILES.items()}) == []


@pytest.mark.parametrize("rule", WITH_SAMPLE, ids=lambda rule: rule.code)
def test_a_rule_finds_its_bad_sample_and_nothing_else_is_found(rule: Rule) -> None:
    assert rule.sample is not None
    found = check(samples.with_bad(rule.sample))
    assert {finding.rule for finding in found} == {rule.code}, found
    assert {finding.severity for finding in found} == {rule.severity}


@pytest.mark.parametrize("rule", WITH_SAMPLE, ids=lambda rule: rule.code)
def test_a_good_sample_has_no_finding(rule: Rule) -> None:
    assert rule.sample is not None
    assert check(samples.with_good(rule.sample)) == []


def test_codes_are_unique_and_named_by_their_files() -> None:
    codes = [rule.code for rule in rulebook().rules]
    assert len(set(codes)) == len(codes)
    files = {path.name[:5].upper() for path in Path(samples.__file__).parent.rglob("kb[0-9]*.py")}
    assert files | {rule.code for rule in (*FORM, *SHAPE)} == set(codes)


def test_a_rule_lies_in_the_folder_of_its_family() -> None:
    folders = {"3": "references", "4": "meaning", "5": "safety", "6": "contradictions", "7": "freshness"}
    for path in Path(samples.__file__).parent.glob("*/kb*.py"):
        assert folders[path.name[2]] == path.parent.name


def test_every_code_that_the_reading_layer_gives_has_a_rule() -> None:
    folder = Path(samples.__file__).parents[1] / "reading"
    given = {code for path in folder.glob("*.py") for code in re.findall(r"KB[0-9]{3}", path.read_text("utf-8"))}
    assert given <= {rule.code for rule in rulebook().rules}
    assert {code for code in given if code[2] in "12"} == {
        rule.code for rule in rulebook().rules if rule.code[2] in "12"
    }
