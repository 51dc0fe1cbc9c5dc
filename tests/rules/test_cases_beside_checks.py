"""What cases say held against their checks, and checks against each other."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from kbtools.model.case import Case, CheckResult, Tried
from kbtools.model.check import Reading
from kbtools.model.fault import Fault
from kbtools.model.measured import measured, times
from kbtools.model.money import Distance
from kbtools.rules.contradictions import kb612_two_good_ranges
from kbtools.rules.freshness import kb708_cause_of_its_own
from kbtools.rules.meaning import kb445_reading_beside_check
from kbtools.rules.rule import Rule
from tests.support.factories import base, case, cause, check, fault, make, row, span

TODAY = dt.date(2026, 6, 1)


def read_at(place: str, low: float, high: float, unit: str, when: str | None = None) -> Reading:
    given = {"place": place, "when": when, "good": span(low, high), "unit": unit, "at": "/checks/0/reading"}
    return make(Reading, {**given, "low_points_to": ("worn",)}, {})


def measuring(id: str, reading: Reading, **changes: object) -> Fault:  # noqa: A002
    checks = (check("meter", reading=reading, expect=None, at="/checks/0"),)
    return fault(id, checks=checks, causes=(cause(component="regulator"),), **changes)


def found(rule: Rule, *faults: Fault, cases: tuple[Case, ...] = ()) -> list[str]:
    assert rule.check is not None
    return [f"{each.path.rsplit('/', 1)[1]} {each.pointer}" for each in rule.check(base(*faults, cases=cases), TODAY)]


@pytest.mark.parametrize(
    ("reading", "result", "is_told"),
    [
        ("10.2 V", "good", True),
        ("10.2 V", "low", False),
        ("10200 mV", "low", False),
        ("10,2 V", "good", True),
        ("12.7", "good", False),
        ("12.7 V", "high", True),
        # 12.48 V written to a tenth is 12.5 V: either side of the limit.
        ("12.5 V", "good", False),
        ("12.4 V", "good", True),
        ("12 V", "good", False),
        ("12.7 bar", "good", True),
        ("10.2 V", "unclear", False),
        ("open when the bars are turned", "low", False),
        ("jumps between 3 and 14 V", "high", False),
        ("falls to 9.1 V at once", "good", False),
    ],
)
def test_a_reading_is_on_the_side_that_its_result_says(reading: str, result: CheckResult, is_told: bool) -> None:
    tried = (Tried(check="meter", fix=None, result=result, reading=reading, at="/tried/0"),)
    entry = measuring("it-is-flat", read_at("battery posts", 12.5, 12.9, "V"))
    told = found(kb445_reading_beside_check.RULE, entry, cases=(case("c1", "it-is-flat", tried=tried),))
    assert told == (["c1.yml /tried/0/reading"] if is_told else [])


def test_units_of_one_quantity_are_brought_to_one_another() -> None:
    # SI brochure, 9th edition: prefixes; 1 bar is 100 kPa.
    assert times("mV", "V") == pytest.approx(0.001)
    assert times("kΩ", "ohm") == pytest.approx(1000)
    assert times("bar", "kPa") == pytest.approx(100)
    assert times("V", "A") is None
    value = measured("-0,25 mm on the left")
    assert value is not None
    assert (value.value, value.unit) == (-0.25, "mm")
    assert value.rounding == pytest.approx(0.005)


TWO = kb612_two_good_ranges.RULE
FIRST = measuring("a", read_at("Battery posts", 12.5, 12.9, "V", "at rest"))


@pytest.mark.parametrize(
    ("other", "is_told"),
    [
        (read_at("battery, posts", 12.4, 12.9, "V", "at rest"), True),
        (read_at("battery posts", 12500, 12900, "mV", "at rest"), False),
        (read_at("battery posts", 13.5, 14.8, "V", "at 4000 rpm"), False),
        (read_at("regulator plug", 12.4, 12.9, "V", "at rest"), False),
        (read_at("battery posts", 0, 50, "mA", "at rest"), False),
    ],
)
def test_one_place_in_one_state_has_one_good_range(other: Reading, is_told: bool) -> None:
    second = measuring("b", other)
    assert found(TWO, FIRST, second) == (["b.yml /checks/0/reading/good"] if is_told else [])
    elsewhere = dataclasses.replace(second, applies_to=(row("curlew-1100"),))
    assert found(TWO, FIRST, elsewhere) == []


def test_the_same_words_at_another_part_are_another_place() -> None:
    one, other = (measuring(id, read_at("plug, way to way", low, 20, "ohm")) for id, low in (("a", 10), ("b", 11)))  # noqa: A001
    assert found(TWO, one, other) == ["b.yml /checks/0/reading/good"]
    assert found(TWO, one, dataclasses.replace(other, causes=(cause(component="pump"),))) == []


OWN = kb708_cause_of_its_own.RULE


def ended(number: int, **outcome: object) -> Case:
    given = {"state": "solved", "verified": True, "after": Distance(value=900, unit="km"), "also": ()}
    return case(f"c{number}", "it-is-flat", outcome={**given, **outcome})


def test_three_unlisted_causes_with_one_note_ask_for_a_cause() -> None:
    entry = fault("it-is-flat", causes=(cause("worn", at="/causes/0"),))
    notes = [
        "Alarm box drew 60 mA.",
        "It was the alarm: its box never slept",
        "alarm box from an earlier owner",
        "Rat in the loom",
    ]
    cases = tuple(ended(number, cause="unlisted", note=note) for number, note in enumerate(notes))
    assert found(OWN, entry, cases=cases) == ["it-is-flat.yml /causes"]
    # Two are chance, and three different ones are three things.
    assert found(OWN, entry, cases=cases[1:]) == []
    assert found(OWN, entry, cases=(cases[0], *cases[3:], ended(9, cause="unlisted", note="Bulb in the top box"))) == []


def test_three_finds_beside_a_cause_ask_for_often_with() -> None:
    causes = (cause("worn", at="/causes/0"), cause("green", at="/causes/1"))
    cases = tuple(ended(number, cause="worn", also=("green",)) for number in range(3))
    assert found(OWN, fault("it-is-flat", causes=causes), cases=cases) == ["it-is-flat.yml /causes/0"]
    said = (dataclasses.replace(causes[0], often_with=("green",)), causes[1])
    assert found(OWN, fault("it-is-flat", causes=said), cases=cases) == []
    assert found(OWN, fault("it-is-flat", causes=causes), cases=cases[:2]) == []
