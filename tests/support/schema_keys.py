"""The keys of a schema at any depth, read from the files in `schemas/` by themselves."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any, Final

from tests.support.places import ROOT

Way = tuple[str, ...]
"""Keys from the root; `*` stands for the members of a list."""

_SIDE_BY_SIDE: Final = ("if", "then", "else")
_LISTED: Final = ("allOf", "anyOf", "oneOf")


def keys(kind: str) -> dict[Way, dict[str, Any]]:
    """Every key that a file of this kind may have, in order, with what the schema says where it is first named."""
    found: dict[Way, dict[str, Any]] = {}
    for way, part in _named(*_followed({"$ref": f"{kind}.schema.json#"}, ""), ()):
        found.setdefault(way, part)
    return found


def ways(data: Any, at: Way = ()) -> Iterator[tuple[Way, Any]]:
    """Every key of plain data with its value, in order; the members of a list under `*`."""
    if isinstance(data, dict):
        for key, value in data.items():
            yield (*at, key), value
            yield from ways(value, (*at, key))
    elif isinstance(data, list):
        for each in data:
            yield from ways(each, (*at, "*"))


def _named(part: dict[str, Any], home: str, at: Way) -> Iterator[tuple[Way, dict[str, Any]]]:
    for key, inner in part.get("properties", {}).items():
        target, file = _followed(inner, home)
        yield (*at, key), target
        yield from _named(target, file, (*at, key))
    if "items" in part:
        yield from _named(*_followed(part["items"], home), (*at, "*"))
    beside = [part[word] for word in _SIDE_BY_SIDE if word in part]
    beside += [each for word in _LISTED for each in part.get(word, ())]
    for each in (*beside, *part.get("dependentSchemas", {}).values()):
        yield from _named(*_followed(each, home), at)


def _followed(part: dict[str, Any], home: str) -> tuple[dict[str, Any], str]:
    """What a reference leads to, with what stands beside it, and the file that this is in."""
    while "$ref" in part:
        file, _, pointer = part["$ref"].partition("#")
        home = file or home
        target = json.loads((ROOT / "schemas" / home).read_text("utf-8"))
        for step in pointer.strip("/").split("/") if pointer else ():
            target = target[step]
        part = {**target, **{word: value for word, value in part.items() if word != "$ref"}}
    return part, home
