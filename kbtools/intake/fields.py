"""The keys of a case as fields that stand side by side: columns of a table, questions of a form."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final, Literal

from kbtools.reading.shape import Schema

Kind = Literal["model", "fault", "cause", "id", "text", "texts", "whole", "number", "distance", "date", "flag", "word"]
Lists = Literal["causes", "codes", "tried"]

Words = Mapping[str, tuple[str, ...]]

_NAMES: Final[Mapping[str, str]] = {
    "cleared/on": "cleared",
    "source/kind": "source_kind",
    "source/title": "source",
    "source/year": "source_year",
    "source/url": "source_url",
    "source/archived": "source_archived",
    "source/seen_on": "source_seen_on",
}
"""Keys whose last word alone does not say what they are of; all others are named by that."""
_TITLES: Final[Mapping[str, str]] = {"cleared/on": "Cleared on", "source/title": "Source"}
_KINDS: Final[Mapping[str, Kind | Lists]] = {
    "vehicle/model": "model",
    "fault": "fault",
    "outcome/cause": "cause",
    "outcome/also": "causes",
    "codes": "codes",
    "tried": "tried",
}
"""Keys whose kind the schema does not tell."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One key of a case that holds a value, or a list of them."""

    name: str
    """As a table's header and a form call it."""
    steps: tuple[str, ...]
    """Keys that lead to it in a case's file."""
    kind: Kind | Lists
    """What it holds."""
    title: str
    """Of the schema."""
    description: str
    """Of the schema."""
    example: str
    """Of the schema, as somebody writes it; empty where it has none that fits."""
    words: Words
    """Of a word of a list, and of a code's status: each with the other words for it; else empty."""
    meanings: tuple[str, ...]
    """Of a word of a list: what each means."""
    results: Mapping[str, Words]
    """Of what was tried: what may come out of a `check` and of a `fix`; else empty."""
    required: bool
    """Whether a case without it is not whole, whatever else it says."""

    @property
    def pointer(self) -> str:
        """JSON pointer in a case's file."""
        return "".join(f"/{step}" for step in self.steps)


def fields_of(schema: Schema) -> dict[str, Field]:
    """The fields of a case by name, in the schema's order.

    Args:
        schema: of cases, with its references followed.
    """
    return {field.name: field for field in _fields(schema, (), required=True)}


def _fields(part: Schema, steps: tuple[str, ...], *, required: bool) -> Iterator[Field]:
    at = "/".join(steps)
    if part.get("type") == "object" and at not in _KINDS:
        for key, inner in part.get("properties", {}).items():
            yield from _fields(inner, (*steps, key), required=required and key in part.get("required", ()))
        return
    rows = part.get("items", {})
    status = rows.get("properties", {}).get("status", {})
    examples = part.get("examples", [""])
    yield Field(
        name=_NAMES.get(at, steps[-1]),
        steps=steps,
        kind=_KINDS.get(at) or _kind(part),
        title=_TITLES.get(at, part.get("title", steps[-1])),
        description=part.get("description", ""),
        example=_example(examples[0]),
        words=_words(status if at == "codes" else part),
        meanings=tuple(part.get("markdownEnumDescriptions", ())),
        results=_results(rows) if at == "tried" else {},
        required=required,
    )


def _words(part: Schema) -> Words:
    also = part.get("x-also", {})
    return {word: tuple(also.get(word, ())) for word in part.get("enum", ())}


def _results(row: Schema) -> Mapping[str, Words]:
    """What may come out of a check and of a fix, as the schema tells them apart."""
    return {each["if"]["required"][0]: _words(each["then"]["properties"]["result"]) for each in row.get("allOf", ())}


def _kind(part: Schema) -> Kind:
    if "enum" in part:
        return "word"
    kinds: Mapping[str, Kind] = {"array": "texts", "integer": "whole", "number": "number", "boolean": "flag"}
    if part.get("type") in kinds:
        return kinds[part["type"]]
    if part.get("format") == "date":
        return "date"
    if "(km|mi)" in part.get("pattern", ""):
        return "distance"
    fits = re.compile(part.get("pattern", "")).search
    return "id" if fits("b017-a") and not fits("any words") else "text"


def _example(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return "; ".join(map(_example, value))
    if isinstance(value, dict):
        name = value.get("check") or value.get("fix") or value.get("code") or ""
        said = value.get("result") or value.get("status") or ""
        return f"{name}: {said}" if "result" in value else f"{name} {said}".strip()
    return str(value)


def put(data: dict[str, Any], field: Field, value: Any) -> None:
    """Put a value where a case's file has it."""
    for step in field.steps[:-1]:
        data = data.setdefault(step, {})
    data[field.steps[-1]] = value
