"""The short way past jsonschema: it must never let pass what jsonschema would refuse."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from kbtools.edges.shipped import shapes
from kbtools.reading.layout import place_of
from kbtools.reading.quick import FORMATS, compiled
from kbtools.reading.shape import to_data
from kbtools.reading.tree import parse
from tests.support.places import DEMO

SHAPES = shapes()


def _content(path: Path) -> tuple[str, Any]:
    kind = place_of(path.relative_to(DEMO).as_posix()).kind
    assert kind is not None
    root, _ = parse(path.name, path.read_text("utf-8"))
    assert root is not None
    return kind, to_data(root, SHAPES[kind].hints, (), [])


CONTENTS = [_content(path) for path in sorted(DEMO.rglob("*.yml"))]

VALUES = st.one_of(
    st.sampled_from(["", " ", "a-b", "2026-02-30", "2026-03-14\n", "home", "all", "unlisted", "http://x.example"]),
    st.sampled_from([None, True, False, 0, 1, 1.0, -1, 0.5, 2, 10**9]),
    st.sampled_from([[], [1, 2], [2], ["x", "x"], [["x"], ["x"]], [1, 1.0], [True, 1], {}, {"x": 1}, {"id": "x"}]),
)


def _places(data: Any, at: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    inner = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return [at, *(place for key, value in inner for place in _places(value, (*at, key)))]


@st.composite
def damaged(draw: st.DrawFn) -> tuple[str, Any]:
    """A file of the demo with some values replaced, taken out, doubled, or put where they do not belong."""
    kind, original = draw(st.sampled_from(CONTENTS))
    data = copy.deepcopy(original)
    for _ in range(draw(st.integers(0, 3))):
        places = _places(data)
        place = draw(st.sampled_from(places))
        if place == ():
            continue
        parent = data
        for step in place[:-1]:
            parent = parent[step]
        what = draw(st.sampled_from(["replace", "take out", "double", "add"]))
        if what == "replace":
            parent[place[-1]] = copy.deepcopy(draw(VALUES))
        elif what == "take out":
            del parent[place[-1]]
        elif what == "double" and isinstance(parent, list):
            parent.append(copy.deepcopy(parent[place[-1]]))
        elif isinstance(parent, dict):
            key = draw(st.sampled_from(["reading", "expect", "fix", "check", "draft", "note", "cause", "x"]))
            parent[key] = copy.deepcopy(draw(VALUES))
    return kind, data


@given(damaged())
def test_nothing_passes_that_jsonschema_refuses(case: tuple[str, Any]) -> None:
    kind, data = case
    if SHAPES[kind].passes(data):
        assert SHAPES[kind].validator.is_valid(data)


@pytest.mark.parametrize("kind", ["fault", "case", "model", "systems", "cautions", "words"])
def test_sound_files_pass_without_jsonschema(kind: str) -> None:
    contents = [data for each, data in CONTENTS if each == kind]
    assert contents
    assert all(SHAPES[kind].passes(data) for data in contents)


SCHEMAS: list[dict[str, Any]] = [
    {"type": "integer"},
    {"type": ["string", "number"], "exclusiveMinimum": 0},
    {"type": "string", "format": "date"},
    {"pattern": "^[a-z]+$"},
    {"const": True},
    {"enum": ["a", "b"]},
    {"not": {"uniqueItems": True}},
    {"if": {"type": "array"}, "then": {"minItems": 2}, "else": {"minimum": 1}},
    {"items": {"required": ["x"]}, "maxItems": 2},
    {"properties": {"x": {}}, "additionalProperties": False},
    {"properties": {"y": {}}, "additionalProperties": {"type": "integer"}},
    {"dependentSchemas": {"x": {"required": ["y"]}}},
    {"allOf": [{"minimum": 0}, {"maximum": 1}]},
    {"exclusiveMaximum": 1},
    {"maxLength": 4},
    {"maxProperties": 0},
    {"propertyNames": {"maxLength": 1}},
]


@pytest.mark.parametrize("schema", SCHEMAS, ids=str)
@given(value=VALUES)
def test_each_keyword_says_what_jsonschema_says(schema: dict[str, Any], value: Any) -> None:
    valid = Draft202012Validator(schema, format_checker=FORMATS).is_valid(value)
    if compiled(schema)(value):
        assert valid
    elif isinstance(value, str | int | float | dict):
        assert not valid


def test_a_keyword_that_is_not_known_is_left_to_jsonschema() -> None:
    assert not compiled({"type": "object", "patternProperties": {}})({})
    assert not compiled({"const": 1})(1)
