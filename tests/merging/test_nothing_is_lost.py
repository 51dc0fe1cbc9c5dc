"""A draft of two entries loses nothing: what either says is in it, or somebody is told that it is not."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Iterator
from functools import partial
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbtools.edges.shipped import shapes
from kbtools.merging.draft import Merged, merged
from kbtools.model.codes import read_code
from kbtools.model.fault import Fault
from kbtools.reading.rows import Row
from kbtools.reading.shape import to_data
from kbtools.reading.tree import parse
from kbtools.reading.typed_fault import fault as typed
from kbtools.reading.write_fault import as_yaml
from tests.support import factories as make
from tests.support.generated_faults import NEEDED, drafts
from tests.support.places import TESTS
from tests.support.schema_keys import Way, keys

SHAPE = shapes()["fault"]
KEYS = keys("fault")
_OF_USES = {("checks", "*", key) for key in ("use", "low_points_to", "high_points_to")}
"""Keys of a row that uses a shared check; what becomes of those is tried by itself in `test_draft.py`."""
LEAVES = [
    way for way in KEYS if way not in _OF_USES and not any(other[: len(way)] == way and other != way for other in KEYS)
]

DECIDED = {
    "reviewed": "a draft has yet to be reviewed",
    "draft": "it is one",
    "withdrawn": "the command refuses what has been withdrawn",
}
"""Keys whose value in the draft does not depend on the two entries, and why."""

DEFAULTS = {way[-1]: part["default"] for way, part in KEYS.items() if "default" in part}
SHARES = {"often": 6, "sometimes": 3, "rarely": 1}
"""As schemas/fault.schema.json has them."""


def data_of(text: str) -> dict[str, Any]:
    root, _ = parse("x.yml", text)
    assert root is not None
    data: dict[str, Any] = to_data(root, SHAPE.hints, (), [])
    return data


EVERY_KEY = data_of((TESTS / "examples/good/every-key.fault.yml").read_text("utf-8"))
EVERY_KEY["checks"] = [row for row in EVERY_KEY["checks"] if "use" not in row]


def entry(identity: str, data: dict[str, Any]) -> Fault:
    in_formats = partial(read_code, formats=make.FORMATS)
    return typed(identity, f"faults/charging/{identity}.yml", Row(data, ""), frozenset(), in_formats)


def merged_data(first: dict[str, Any], second: dict[str, Any]) -> Merged:
    one, other = entry("one", first), entry("other", second)
    return merged(make.base(one, other), one, other)


# What is told, worked out from plain data alone


NAMES = ("id", "code", "fault", "name", "title", "file")
"""Keys of rows by which one tells them apart."""


def told(data: Any, at: Way = ()) -> Iterator[tuple[Way, Any]]:
    """Each single thing that plain data says; rows under their names, rows of machines whole."""
    if isinstance(data, dict):
        for key, value in data.items():
            yield from told(value, (*at, key))
    elif isinstance(data, list) and at[-1] not in {"price", "labour_hours", "good"}:
        for each in data:
            if at[-1] == "applies_to" or not isinstance(each, dict):
                yield at, each
            else:
                yield from told(each, (*at, next(each[name] for name in NAMES if name in each)))
    else:
        yield at, SHARES.get(data, data) if at[-1] == "share" else measured(data)


def measured(value: Any) -> Any:
    """A distance or a speed with one blank before its unit, as it is written."""
    match = re.fullmatch(r"0*([0-9]+) ?(km|mi|km/h|mph)", value) if isinstance(value, str) else None
    return value if match is None else f"{match[1]} {match[2]}"


def with_new_ids(data: dict[str, Any], draft: Merged) -> dict[str, Any]:
    """The second entry's content with the ids that its causes and checks have in the draft."""
    data = copy.deepcopy(data)

    def new(row: dict[str, Any], *lists: str) -> None:
        for key in lists:
            if key in row:
                row[key] = [draft.causes.get(each, each) for each in row[key]]

    for cause in data.get("causes", ()):
        cause["id"] = draft.causes[cause["id"]]
        new(cause, "often_with")
    for check in data.get("checks", ()):
        check["id"] = draft.checks[check["id"]]
        new(check, "points_to")
        new(check.get("reading", {}), "low_points_to", "high_points_to")
    for source in data.get("sources", ()):
        new(source, "covers")
    return data


def lost(name: str, data: dict[str, Any], draft: Merged) -> list[tuple[Way, Any]]:
    """What an entry says that is neither in the draft nor in its notes."""
    there: dict[Way, list[Any]] = {}
    for way, value in told(data_of(as_yaml(draft.fault, SHAPE.hints))):
        there.setdefault(way, []).append(value)
    notes = [note for note in draft.notes if note.startswith(f"Left out of {name}: ")]
    return [
        (way, value)
        for way, value in told(data)
        if way[0] not in DECIDED
        and not (way == ("related",) and value in {"one", "other"})
        and not is_there(way, value, there)
        and not any(is_named(way, value, note) for note in notes)
    ]


def is_there(way: Way, value: Any, there: dict[Way, list[Any]]) -> bool:
    if way not in there and len(way) > 1 and way[-1] in {"applies_to", "covers"}:
        # None named are all.
        return True
    if DEFAULTS.get(way[-1]) == value and (way not in there or way[0] == "codes"):
        # Of codes there may be several of one name, and a default stands nowhere.
        return True
    if way[-1] == "applies_to":
        return any(is_held(value, row) for row in there[way])
    if way[-2:] == ("ride_advice", "why"):
        return any(value in each for each in there.get(way, ()))
    return spread(value) in map(spread, there.get(way, ()))


def spread(value: Any) -> Any:
    """One number for a range stands for both ends."""
    return [value, value] if isinstance(value, int | float) and not isinstance(value, bool) else value


def is_held(row: dict[str, Any], by: dict[str, Any]) -> bool:
    first, last = span(row["years"])
    least, most = span(by["years"])
    return {**row, "years": ""} == {**by, "years": ""} and least <= first and last <= most


def span(years: str) -> tuple[str, str]:
    """First and last year as texts of four digits, which sort as numbers do."""
    if years == "all":
        return "0000", "9999"
    first, dash, last = years.partition("-")
    return first or "0000", (last or "9999") if dash else first


def is_named(way: Way, value: Any, note: str) -> bool:
    """Whether a note has the key and the value, or says that the row around it was left out."""
    words = {word for word, weight in SHARES.items() if way[-1] == "share" and weight == value}
    written = {json.dumps(each, ensure_ascii=False) for each in (*words, value, whole(value))}
    named = way[-1] in note and any(each in note for each in written)
    return named or f": {' / '.join(way[:2])}, since " in note


def whole(value: Any) -> Any:
    """Numbers as people write them: 2 for 2.0."""
    if isinstance(value, list):
        return [whole(each) for each in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value


def nothing_is_lost(first: dict[str, Any], second: dict[str, Any]) -> None:
    draft = merged_data(first, second)
    assert lost("one", first, draft) == []
    assert lost("other", with_new_ids(second, draft), draft) == []


def altered(data: Any, way: Way) -> Any:
    """The content with another value wherever the key stands; None: without the key."""
    if not way:
        return other_value(data)
    if isinstance(data, list):
        return [altered(each, way[1:]) for each in data]
    return {key: altered(value, way[1:]) if key == way[0] else value for key, value in data.items()}


def other_value(value: Any) -> Any:
    others = {
        "often": "sometimes",
        "rarely": "often",
        "experienced": "workshop",
        "home": "workshop",
        "riding": "running",
        "do-not-ride": "ride-to-workshop",
        "sometimes": "yes",
    }
    others |= {"80 km/h": "70 km/h", "12 mi": "10 mi", "30 mph": "25 mph"}
    others |= {"ride-to-workshop": "ride-with-care", "recall": "bulletin", "2026-02-03": "2026-02-04"}
    others |= {"2005": "2007", "2006": "2007", "2004-2007": "2003-2008"}
    if isinstance(value, bool):
        return not value
    if isinstance(value, list):
        return [other_value(each) for each in value]
    return others.get(value, f"{value} as well") if isinstance(value, str) else value / 2


def without(data: Any, way: Way) -> Any:
    if isinstance(data, list):
        return [without(each, way[1:]) for each in data]
    rest = {key: value for key, value in data.items() if way != (key,)}
    return {key: without(value, way[1:]) if way[1:] and key == way[0] else value for key, value in rest.items()}


@pytest.mark.parametrize("way", LEAVES, ids="/".join)
def test_what_one_of_them_says_otherwise_is_not_lost(way: Way) -> None:
    other = altered(EVERY_KEY, way)
    assert other != EVERY_KEY
    nothing_is_lost(EVERY_KEY, other)


@pytest.mark.parametrize("way", [way for way in LEAVES if way[-1] not in NEEDED], ids="/".join)
def test_what_only_one_of_them_says_is_not_lost(way: Way) -> None:
    silent = without(EVERY_KEY, way)
    assert silent != EVERY_KEY
    nothing_is_lost(silent, EVERY_KEY)
    nothing_is_lost(EVERY_KEY, silent)


def _with_own_checks(data: dict[str, Any]) -> dict[str, Any]:
    """Of checks that entries share the room's other tests know; these go by a row's own id."""
    return data | {"checks": [row for row in data["checks"] if "use" not in row]} if "checks" in data else data


@st.composite
def pairs(draw: st.DrawFn) -> tuple[dict[str, Any], dict[str, Any]]:
    """Two entries, of which the second has rows of the first one as well, some of their keys with other values."""
    first, second = (_with_own_checks(draw(drafts())) for _ in range(2))
    for key in ("codes", "causes", "checks", "sources", "distinct_from"):
        others = [{}, *second.get(key, [])]
        for row in first.get(key, []):
            other = draw(st.sampled_from(others))
            changed = draw(st.sets(st.sampled_from(sorted(other)))) if other else set()
            mixed = {**row, **{each: other[each] for each in changed}}
            if "reading" in mixed:
                mixed = {each: value for each, value in mixed.items() if each not in {"expect", "points_to"}}
            second.setdefault(key, []).append(mixed)
    return first, second


@settings(max_examples=10)
@given(pairs())
def test_whatever_two_entries_say_is_not_lost(pair: tuple[dict[str, Any], dict[str, Any]]) -> None:
    assert all(SHAPE.validator.is_valid(each) for each in pair)
    nothing_is_lost(*pair)
