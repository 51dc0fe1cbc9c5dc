"""Faults as plain data, made from the schema alone, so that a new key is in them without anybody thinking of it.

Each is a draft, which may lack nearly everything. Texts are such as YAML reads otherwise, or any characters at all.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable
from typing import Any, Final

from hypothesis import strategies as st

from kbtools.edges.shipped import shapes

ODD_TEXTS: Final = (
    # What YAML 1.1 or 1.2 reads as something else than a text.
    *("no", "Yes", "on", "true", "~", "null", "1E10", "0123", "0o17", "0x1F", "1_000", "-7", ".5", ".inf", "12:30"),
    *("12:30:45", "2026-03-14", "2026-03-14 12:30:00", "=", "<<"),
    # What it takes for its own signs.
    *("a: b", "a #b", "#b", "- a", "-", "?", "? a", ":", "[a, b]", "{a: b}", "&a", "*a", "!a", "|", "> a", "%a", "@a"),
    *("`a`", "---", "...", "--- a", "'", '"', "it's", 'say "ah"', "a\\nb", "a\\", ", a", "a:", ":a"),
    # Blanks and ends of lines.
    *(" a", "a ", "\ta", "a\tb", "a\nb", "a\n\nb", "\na", "a\n", "a\n\n", "a\n  b\n c", "a\r\nb", "a\rb", "- a\n- b\n"),
    *("a\u2028b", "a\u2029", "\u2028a b", "a\x85b\nc", "a\u00a0b", "\ufeffa", "a\u200bb", "\u202ea"),
    # Signs that a file cannot hold as they are, and signs of other scripts.
    *("a\x00b", "\x1b[31ma", "a\x7f", "a\x9fb", "a\ufffe", "Zündkerze", "火花", "\U0001f3cd", "e\u0301", "\U0010ffff"),
    # Longer than a line.
    "word " * 40 + "end",
    "a: 'b' #c \u2028" * 20,
    "W" * 300,
)

NEEDED: Final = frozenset(
    {"model", "years", "code", "id", "kind", "title", "fault", "level", "name", "on", "by", "file", "of", "checked_by"}
)
"""Without them the reader knows no row."""

_ID: Final = "^[a-z0-9-]+$"
_NUMBERS: Final = (0, 1, 3, 6, 0.1, 1e-7, 1e15, 1e16, 1e22, 1e300, 5e-324, 13.5)
_ANY: Final = st.text(st.characters(exclude_categories=["Cs"]), min_size=1)
_WORDS: Final = (st.sampled_from(ODD_TEXTS) | _ANY).filter(lambda text: re.search(r"\S", text) is not None)
_SCHEMA: Final = shapes()["fault"].schema


@st.composite
def drafts(draw: st.DrawFn) -> dict[str, Any]:
    """A fault's content that the schema has nothing against."""
    data = draw(_values(_SCHEMA))
    if "checks" in data:
        data["checks"] = [_of_one_kind(row) for row in data["checks"]]
    return {**data, "draft": True}


def _of_one_kind(row: dict[str, Any]) -> dict[str, Any]:
    """A check of the entry's own, or one that it shares; each has keys that the other has not."""
    sides = {"low_points_to", "high_points_to"}
    if "use" not in row:
        return {key: value for key, value in row.items() if key not in sides}
    meant = sides if sides & row.keys() else {"points_to"}
    return {key: value for key, value in row.items() if key in {"use", "finds", "before_riding", *meant}}


def _values(part: dict[str, Any]) -> st.SearchStrategy[Any]:
    """What may stand where the schema says this; its keywords as far as `schemas/` uses them."""
    types = [part["type"]] if isinstance(part["type"], str) else part["type"]
    # A number that is taken as its characters is one of the texts.
    return st.one_of(*(_MADE[each](part) for each in (types if "x-plain" not in part else ["string"])))


def _texts(part: dict[str, Any]) -> st.SearchStrategy[str]:
    if "enum" in part or "then" in part:
        return st.sampled_from(part.get("then", part)["enum"])
    if part.get("format") == "date":
        return (
            st.dates(dt.date(1885, 1, 1), dt.date(2099, 12, 31))
            .map(str)
            .filter(lambda day: re.search(part["pattern"], day) is not None)
        )
    if part["pattern"] == r"\S":
        return _WORDS.filter(lambda text: len(text) <= part.get("maxLength", len(text)))
    if part["pattern"] == _ID:
        return st.sampled_from(["a", "b", "c-2", "1e5", "no", "007"])
    return st.from_regex(part["pattern"], fullmatch=True)


def _numbers(part: dict[str, Any]) -> st.SearchStrategy[float]:
    least, most = part.get("minimum", part.get("exclusiveMinimum")), part.get("maximum")
    known = [each for each in _NUMBERS if (least is None or each >= least) and (most is None or each <= most)]
    numbers = st.sampled_from(known) | st.floats(least, most, allow_nan=False, allow_infinity=False)
    return numbers.filter(lambda each: each != part.get("exclusiveMinimum"))


def _lists(part: dict[str, Any]) -> st.SearchStrategy[list[Any]]:
    return st.lists(
        _values(part["items"]),
        min_size=part.get("minItems", 0),
        max_size=part.get("maxItems", 2),
        unique=part.get("uniqueItems", False),
    )


def _mappings(part: dict[str, Any]) -> st.SearchStrategy[dict[str, Any]]:
    inner = {key: _values(each) for key, each in part["properties"].items()}
    of_a_draft = part.get("then", {}).get("required", ())
    needed = {key: inner.pop(key) for key in part["properties"] if key in NEEDED or key in of_a_draft}
    return st.fixed_dictionaries(needed, optional=inner).map(_without_excluded(part))


def _without_excluded(part: dict[str, Any]) -> Callable[[dict[str, Any]], dict[str, Any]]:
    """Without the keys that cannot stand beside another one."""
    pairs = [
        (one, other)
        for one, beside in part.get("dependentSchemas", {}).items()
        for other, inner in beside.get("properties", {}).items()
        if inner == {"not": {}}
    ]

    def without(data: dict[str, Any]) -> dict[str, Any]:
        gone = {other for one, other in pairs if one in data}
        return {key: value for key, value in data.items() if key not in gone}

    return without


_MADE: Final[dict[str, Callable[[dict[str, Any]], st.SearchStrategy[Any]]]] = {
    "string": _texts,
    "number": _numbers,
    "integer": lambda part: st.integers(part["minimum"], part["maximum"]),
    "boolean": lambda _: st.booleans(),
    "array": _lists,
    "object": _mappings,
}
