"""Fills every text field of a knowledge base with a string that must never act.

The fields are found by walking the JSON Schemas, so a new one is covered as soon as the demo uses it.
"""

from __future__ import annotations

import json
import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any, Final

import yaml
from PIL import Image

from tests.support.demo_pictures import copy_named
from tests.support.yaml_files import SAFE

STRINGS: Final[Mapping[str, str]] = {
    "script": "</title><script>window.canary=1</script>",
    "image": '<img src=x onerror="window.canary=1">',
    "link": "[x](javascript:window.canary=1)",
    "template": "{{ 7*7 }}{% raw %}{% include 'main.html' %}",
    "markdown": "**bold** _it_ # h",
    "marks": "turned \u202e round \u2066 inside",
    "long": "W" + "ordwithoutend" * 22,
}
"""By a name for each. The last is about as long as the schema lets a name be."""

NOT_FREE: Final[frozenset[str]] = frozenset(
    {
        "club:/code_formats/*/pattern",  # a regular expression: what is none is refused
        "club:/code_formats/*/example",  # a code of that pattern
        "fault:/codes/*/code",  # codes: what fits no format is refused
        "fault:/codes/*/with/*",
        "case:/codes/*/code",
        "case:/tried/*/result",  # one of a few words, by a condition of the schema
        "fault:/causes/*/share",  # a number or one of three words
        "accepted:/accepted/*/path",  # names a file that has the finding
        # The same lists once more, in files that leave the key around them out.
        "accepted:/*/path",
        "accepted:/*/because",
        "words:/*/*",
        "words:/words/*/*",
    }
)
"""Fields whose schema says text, but in which other rules allow a few texts only."""

_ACCEPTED: Final = "accepted: [{rule: KB701, path: club.yml, at: /name, because: It is known.}]"
"""The demo accepts nothing."""

_WORD: Final = re.compile(r"[a-z0-9][a-z0-9-]*")
_LIMITING: Final[frozenset[str]] = frozenset({"enum", "const", "format", "if", "oneOf", "anyOf", "minLength"})


class Schemas:
    """The schemas as they lie in the folder, read with nothing of the project's own."""

    def __init__(self, folder: Path) -> None:
        self._files = {path.name: json.loads(path.read_text(encoding="utf-8")) for path in folder.glob("*.json")}

    def kinds(self) -> list[str]:
        """Kinds of files."""
        # Pages are written by `hand_written`, and the vocabulary comes with the programs.
        kinds = sorted(name.removesuffix(".schema.json") for name in self._files)
        return [each for each in kinds if not each.startswith(("common", "page", "vocabulary"))]

    def root(self, kind: str) -> tuple[Any, str]:
        """The schema of a kind, and the name of its file."""
        name = f"{kind}.schema.json"
        return self._files[name], name

    def followed(self, schema: Any, file: str) -> tuple[dict[str, Any], str]:
        """A schema with its reference followed; its own words come first."""
        while "$ref" in schema:
            name, _, pointer = schema["$ref"].partition("#")
            file = name or file
            wanted = self._files[file]
            for step in filter(None, pointer.split("/")):
                wanted = wanted[step]
            schema = {**wanted, **{key: value for key, value in schema.items() if key != "$ref"}}
            schema.update({"$ref": wanted["$ref"]} if "$ref" in wanted else {})
        return schema, file

    def free_fields(self) -> set[str]:
        """Every field of every kind that takes any text."""
        return {place for kind in self.kinds() for place in self._below(*self.root(kind), f"{kind}:", ())}

    def _below(self, schema: Any, file: str, place: str, seen: tuple[int, ...]) -> Iterator[str]:
        schema, file = self.followed(schema, file)
        if is_free(schema) and place not in NOT_FREE:
            yield place
        for step, child in children(schema):
            # A system has systems as its children: once round is enough.
            if seen.count(key := id(child)) < 1:
                yield from self._below(child, file, f"{place}/{step}", (*seen, key))


def is_free(schema: Mapping[str, Any]) -> bool:
    """Whether any text may stand there."""
    kinds = schema.get("type", [])
    return (
        "string" in ([kinds] if isinstance(kinds, str) else kinds)
        and not _LIMITING & set(schema)
        # What only names something that stands elsewhere.
        and schema.get("x-prose") is not False
        and (schema.get("pattern", r"\S") == r"\S" or schema["pattern"].startswith("^(?!"))
    )


def children(schema: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    """The schemas right below one, by the step that leads there."""
    yield from schema.get("properties", {}).items()
    for step in ("items", "additionalProperties"):
        if isinstance(schema.get(step), dict):
            yield "*", schema[step]


class Filler:
    """Puts one string into every text field of files, each time with a number so that no two are alike."""

    def __init__(self, schemas: Schemas, string: str, most: int | None = None) -> None:
        """`most`: fill each field only so many times, so that long strings do not make a mountain."""
        self._schemas = schemas
        self._string = string
        self._most = most
        self._free = schemas.free_fields()
        self._number = 0
        self.places: dict[str, int] = {}
        """Field → how often it was filled."""

    def fill(self, kind: str, text: str) -> str:
        """A file's text with its text fields filled; everything else stays as its author wrote it."""
        root = yaml.compose(text, Loader=SAFE)
        schema, file = self._schemas.root(kind)
        return str(yaml.serialize(self._filled(root, schema, file, f"{kind}:"), allow_unicode=False, width=10**6))

    def next(self, longest: int | None = None) -> str:
        """The string with the next number, cut where the field takes no more."""
        self._number += 1
        number = f" n{self._number}"
        return (self._string if longest is None else self._string[: longest - len(number)]) + number

    def _filled(self, node: Any, schema: Any, file: str, place: str) -> Any:
        schema, file = self._schemas.followed(schema, file)
        if isinstance(node, yaml.ScalarNode):
            return self._scalar(node, place, schema.get("maxLength"))
        below = dict(children(schema))
        if isinstance(node, yaml.SequenceNode):
            node.value = [self._filled(each, below.get("*", {}), file, f"{place}/*") for each in node.value]
        elif isinstance(node, yaml.MappingNode):
            node.value = [self._pair(key, value, below, file, place) for key, value in node.value]
        return node

    def _pair(self, key: Any, value: Any, below: Mapping[str, Any], file: str, place: str) -> tuple[Any, Any]:
        if key.value in below:
            return key, self._filled(value, below[key.value], file, f"{place}/{key.value}")
        if "*" not in below:
            return key, value
        # Where the schema names no keys, they are texts of the author as well.
        name = yaml.ScalarNode("tag:yaml.org,2002:str", self.next(), style='"')
        return name, self._filled(value, below["*"], file, f"{place}/*")

    def _scalar(self, node: Any, place: str, longest: int | None) -> Any:
        known = place.replace("/children/*/children/*", "/children/*")
        if known not in self._free or self.places.get(known, 0) == self._most:
            return node
        self.places[known] = self.places.get(known, 0) + 1
        return yaml.ScalarNode("tag:yaml.org,2002:str", self.next(longest), style='"')


def kind_of(path: Path) -> str:
    """The kind of a file of a knowledge base, by its path relative to the folder."""
    folders = {"models": "model", "faults": "fault", "cases": "case"}
    return folders.get(path.parts[0], path.stem)


def hand_written(string: str) -> str:
    """A hand-written page with the string wherever Markdown has a place for words."""
    front = json.dumps(string)
    return f"""\
---
title: {front}
description: {front}
---

# {string}

{string}

## Head {string}

- {string}
- *{string}*
- [{string}](about.md)
- `{string}`
- ![{string}](picture.png)

| {string} | b |
|---|---|
| {string} | c |

> {string}

!!! note "{string}"
    {string}

Term {string}
: {string}

    {string}
"""


def text_of(path: Path) -> str:
    """What is to be filled."""
    return _ACCEPTED if path.name == "accepted.yml" else path.read_text(encoding="utf-8")


def enough(source: Path, schemas: Schemas, first: Collection[str]) -> list[Path]:
    """Of a knowledge base the files that use every field that any of its files uses, with all that they refer to.

    Those named first come first, and the list is as short as going through the files in their order makes it.
    """
    every = sorted(source.rglob("*.yml"), key=lambda path: (path.stem not in first, path))
    seen: set[str] = set()
    wanted: list[str] = []
    for path in every:
        filler = Filler(schemas, "")
        filler.fill(kind_of(path.relative_to(source)), text_of(path))
        if path.stem in first or filler.places.keys() - seen:
            seen |= filler.places.keys()
            wanted.append(path.stem)
    return with_all_they_name(source, every, wanted)


def with_all_they_name(source: Path, every: Sequence[Path], stems: Iterable[str]) -> list[Path]:
    """Of a knowledge base's files these entries, the entries that they name, and all files that are no entries."""
    entries = {path.stem: path for path in every if path.relative_to(source).parts[0] in {"faults", "cases"}}
    wanted = list(stems)
    kept: set[str] = set()
    while wanted:
        if (name := wanted.pop()) in entries and name not in kept:
            kept.add(name)
            # An id is a word of its own wherever one entry names another.
            wanted += set(_WORD.findall(text_of(entries[name]))) & entries.keys() - kept
    return [path for path in every if path.stem not in entries or path.stem in kept]


def fill_base(
    source: Path, target: Path, schemas: Schemas, string: str, *, first: Collection[str] = (), most: int | None = None
) -> Mapping[str, int]:
    """Write a hostile copy of a knowledge base, with hostile hand-written pages.

    Args:
        source: the demo, of which `enough` is taken.
        target: a folder to be made.
        schemas: for the fields.
        string: what every field gets.
        first: stems of files that are filled before others.
        most: fill each field only so many times.

    Returns:
        Field → how often it was filled.
    """
    filler = Filler(schemas, string, most)
    for path in enough(source, schemas, first):
        inside = path.relative_to(source)
        text = text_of(path)
        written = target / inside
        written.parent.mkdir(parents=True, exist_ok=True)
        written.write_text(filler.fill(kind_of(inside), text), encoding="utf-8")
    copy_named(source, target)
    pages = target / "pages"
    pages.mkdir()
    for name in ("index.md", "about.md", "extra.md"):
        (pages / name).write_text(hand_written(string), encoding="utf-8")
    Image.new("RGB", (1, 1)).save(pages / "picture.png")
    return filler.places
