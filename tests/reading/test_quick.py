"""The short way past jsonschema: it must never let pass what jsonschema would refuse."""

from __future__ import annotations

import copy
import datetime as dt
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbtools.edges.shipped import shapes
from kbtools.reading.form import form
from kbtools.reading.layout import place_of
from kbtools.reading.quick import compiled, told
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


@cache
def contents() -> list[tuple[str, Any]]:
    return [_content(path) for path in sorted(DEMO.rglob("*.yml"))]


VALUES = st.one_of(
    st.sampled_from(["", " ", "a-b", "2026-02-30", "2026-03-14\n", "home", "all", "unlisted", "http://x.example"]),
    # Where Python and others part: blanks, ends of lines, a year 0, figures of other scripts, half a pair of UTF-16.
    st.sampled_from(
        ["\x1c", "\x85", "\ufeff", "\u2028", "a\n", "0000-01-01", "2026-03-1\u0664", "http://x\x1d", "\ud800"]
    ),
    st.sampled_from([None, True, False, 0, 1, 1.0, -1, 0.5, 2, 10**9]),
    st.sampled_from([-0.0, 2**53 + 1, 2**63, 2**64, -(2**63) - 1, 10**39, 10**300, 1e300, 5e-324]),
    st.sampled_from([[], [1, 2], [2], ["x", "x"], [["x"], ["x"]], [1, 1.0], [True, 1], {}, {"x": 1}, {"id": "x"}]),
    st.sampled_from([[0, False], [[1], [True]], [{"x": 1}, {"x": 1.0}], ["\u00e9", "e\u0301"]]),
    st.text(max_size=3),
)


def _places(data: Any, at: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    inner = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return [at, *(place for key, value in inner for place in _places(value, (*at, key)))]


@st.composite
def damaged(draw: st.DrawFn) -> tuple[str, Any]:
    """A file of the demo with some values replaced, taken out, doubled, or put where they do not belong."""
    kind, original = draw(st.sampled_from(contents()))
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
    sound = [data for each, data in contents() if each == kind]
    assert sound
    assert all(SHAPES[kind].passes(data) for data in sound)


SCHEMAS: list[dict[str, Any]] = [
    {"type": "integer"},
    {"type": ["string", "number"], "exclusiveMinimum": 0},
    {"type": "string", "format": "date"},
    {"pattern": "^[a-z]+$"},
    {"pattern": r"\S"},
    {"type": "string", "pattern": r"^https?://[^\s<>\"]+$"},
    {"items": {"type": "string", "pattern": r"^\w+$"}},
    {"const": True},
    {"const": 1},
    {"enum": ["a", "b"]},
    {"enum": [0, "all", None]},
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
    {"$ref": "#/$defs/row", "$defs": {"row": {"items": {"$ref": "#/$defs/row"}, "type": ["array", "string"]}}},
    {"type": "string", "title": "x", "x-plain": "text", "x-prose": False, "patternErrorMessage": "other"},
]


@pytest.mark.parametrize("schema", SCHEMAS, ids=str)
@given(value=VALUES)
def test_each_keyword_says_what_jsonschema_says(schema: dict[str, Any], value: Any) -> None:
    valid = told(schema).is_valid(value)
    if "\ud800" in str(value):
        # Nothing can be said of it: jsonschema is asked.
        assert valid or not compiled(schema)(value)
    else:
        assert compiled(schema)(value) == valid


@pytest.mark.parametrize("value", ["\ud800", b"x", dt.date(2026, 3, 14), {1: "x"}], ids=ascii)
def test_what_json_cannot_hold_is_left_to_jsonschema(value: object) -> None:
    assert not compiled({})(value)


def _parts(schema: Any) -> Iterator[dict[str, Any]]:
    inner = schema.values() if isinstance(schema, dict) else schema if isinstance(schema, list) else ()
    if isinstance(schema, dict):
        yield schema
    for each in inner:
        yield from _parts(each)


def test_what_must_not_repeat_is_text_in_every_schema() -> None:
    # Of numbers above 2^64 the two do not agree on which are the same.
    lists = [part for shape in SHAPES.values() for part in _parts(shape.schema) if part.get("uniqueItems")]
    assert lists
    assert {part["items"]["type"] for part in lists} == {"string"}


@pytest.mark.parametrize(
    ("entry", "rule"),
    [
        # Python's `re` takes these for blanks (its documentation of \s), other programs do not.
        ('title: "\\x1c"\nsystem: charging\ndraft: true\n', "KB204"),
        ('title: "\\N"\nsystem: charging\ndraft: true\n', "KB204"),
        # RFC 3339 has a year 0, Python's calendar begins with 1: nobody could reckon with that day.
        ("title: a\nsystem: charging\ndraft: true\nreviewed: {on: 0000-01-01, by: a}\n", "KB204"),
    ],
)
def test_what_python_takes_otherwise_than_others_is_found(entry: str, rule: str) -> None:
    root, _ = parse("a.yml", entry)
    assert root is not None
    assert [each.rule for each in form("a.yml", root, SHAPES["fault"]).findings] == [rule]


def test_ctrl_c_inside_the_library_stops_the_check(monkeypatch: pytest.MonkeyPatch) -> None:
    ready = compiled({"pattern": "^a"})

    def stopped(*_args: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("kbtools.reading.quick._Pattern.validate", stopped)
    with pytest.raises(KeyboardInterrupt):
        ready("abc")
    monkeypatch.setattr("kbtools.reading.quick._Pattern.__init__", stopped)
    with pytest.raises(KeyboardInterrupt):
        compiled({"pattern": "^a"})


def test_a_text_that_names_ctrl_c_stops_nothing() -> None:
    assert not compiled({"pattern": "^a"})("KeyboardInterrupt")
    assert not compiled({"type": "integer"})("KeyboardInterrupt: KeyboardInterrupt()")
