"""Texts that ask for unsafe work: told, and not told where they forbid it, warn of it or do it right."""

from __future__ import annotations

import datetime as dt

import pytest

from kbtools.edges.shipped import tables
from kbtools.model.catalogue import BikeState
from kbtools.model.check import Reading
from kbtools.model.fault import Fault, Reviewed
from kbtools.model.vocabulary import NO_TABLES
from kbtools.rules.rule import Rule
from kbtools.rules.safety import (
    kb558_hydraulics_as_trial,
    kb560_charging_unwatched,
    kb562_ride_in_check,
    kb563_habit_as_reason,
    kb564_harmful_symptom,
    kb565_impossible_range,
)
from kbtools.rules.safety.work_texts import UNSAFE, WorkText, dangers_in
from kbtools.vocabulary.unsafe_words import unsafe_words
from tests.rules.danger import Sentence, sentences
from tests.support.factories import advice, base, cause, check, fault, fix, make, span

TODAY = dt.date(2026, 6, 1)


def told(text: str, bike: BikeState = "off", *, describes: bool = False) -> set[str]:
    """The kinds of danger that a text asks for as a check's `do`, or as a reason."""
    where = WorkText(path="", pointer="", text=text, part="check", bike=bike, describes=describes)
    return {kind for kind, _ in dangers_in(tables(), [where])} & UNSAFE


def counted(name: str) -> tuple[float, float]:
    """The share of a set's unsafe sentences that are told, and that of its safe ones that are told by mistake."""
    unsafe, safe = ([each for each in sentences(name) if each.unsafe is is_unsafe] for is_unsafe in (True, False))
    return _told_of(unsafe), _told_of(safe)


def _told_of(every: list[Sentence]) -> float:
    return sum(bool(told(each.text)) for each in every) / len(every)


def test_what_was_chosen_on_is_told() -> None:
    caught, false = counted("choose")
    assert caught >= 0.95
    assert false <= 1 / 60


def test_what_was_never_looked_at_is_told_as_often_as_was_measured() -> None:
    # 39 of 60 and 5 of 90 when this was written: a floor, and no goal. `tests/rules/danger` says how it is measured.
    caught, false = counted("kept")
    assert caught >= 0.65
    assert false <= 5 / 90


@pytest.mark.parametrize(
    "text",
    [
        "Never open the radiator cap hot.",
        "Do not bridge the stand switch, not even for the way home.",
        "Opening the radiator cap of a hot engine scalds your face.",
        "Whoever pulls a plug cap off with the engine running gets a shock.",
        "Nobody puts a finger near the plug lead while the engine runs.",
        "Let the engine stand for two hours, then take the radiator cap off.",
        "Engine off and key out: pull the plug caps off by hand.",
    ],
)
def test_what_is_forbidden_warned_of_or_done_right_is_not_told(text: str) -> None:
    assert told(text) == set()


def test_the_state_is_the_one_said_nearest_else_the_key_s() -> None:
    text = "Pull each plug cap off by hand and listen."
    assert told(text, "running") == {"ignition-voltage"}
    assert told(text, "off") == set()
    assert told(f"Engine off. {text}", "running") == set()
    assert told(f"With the engine idling: {text}", "off") == {"ignition-voltage"}
    assert told("Stop the engine and start it again. With the engine running pull the plug caps off.") != set()


def test_a_reason_that_tells_is_no_order() -> None:
    assert told("The former owner bridged the side-stand switch.", describes=True) == set()
    assert told("Bridge the side-stand switch and ride home.", describes=True) == {"defeats-safety-device"}


def test_without_our_words_nothing_is_told() -> None:
    assert not list(dangers_in(NO_TABLES, [WorkText(path="", pointer="", text="Open the cap hot.", part="work")]))


def test_every_row_of_the_words_names_ideas_that_are_there() -> None:
    words = unsafe_words(tables().unsafe)
    names = {idea.name for idea in words.ideas}
    assert len(names) == len(words.ideas)
    used = {name for row in words.rows for name in (*row.act, *row.having, *row.unless, *filter(None, [row.state]))}
    assert used <= names
    # What no row asks for would be written in vain.
    states = {state for pair in words.states for state in pair}
    assert names <= used | states | {"warns", "nothing"}
    assert {row.kind for row in words.rows} >= UNSAFE


def test_a_hostile_text_costs_no_more_than_its_length() -> None:
    for piece in ("not ", "open the cap hot ", "a" * 50, "fuse .. ", "10 A "):
        told(piece * 20_000)


def found(rule: Rule, *faults: Fault) -> list[str]:
    assert rule.check is not None
    return [each.pointer for each in rule.check(base(*faults), TODAY)]


@pytest.mark.parametrize(("trial", "pointers"), [(True, ["/causes/0/fix/summary"]), (False, [])])
def test_a_hydraulic_joint_is_not_opened_on_trial(trial: bool, pointers: list[str]) -> None:
    mend = fix(summary="Crack the union of the clutch line and close it.", trial=trial, at="/causes/0/fix")
    entry = fault("clutch-drags", causes=(cause(fix=mend, at="/causes/0"),))
    rule = kb558_hydraulics_as_trial.RULE
    # Opened and closed without bleeding is told in any case; over a bottle only the trial is left.
    dry = fix(summary="Crack the union of the clutch line over a bottle and close it.", trial=trial, at="/causes/0/fix")
    assert found(rule, fault("clutch-drags", causes=(cause(fix=dry, at="/causes/0"),))) == pointers
    assert found(rule, entry) == ["/causes/0/fix/summary"]


@pytest.mark.parametrize(("second", "is_told"), [(None, True), ("curator-1", True), ("mechanic-1", False)])
def test_charging_that_nobody_watches_asks_for_a_second_reader(second: str | None, is_told: bool) -> None:
    read = make(Reviewed, {"on": TODAY, "by": "curator-1", "second": second}, {})
    do = "Leave it on the old charger overnight."
    entry = fault("it-is-flat", checks=(check(do=do, at="/checks/0"),), reviewed=read)
    assert found(kb560_charging_unwatched.RULE, entry) == (["/checks/0/do"] if is_told else [])


@pytest.mark.parametrize(
    ("do", "bike", "is_told"),
    [
        ("Ride an hour and read the codes.", "off", True),
        ("Ride an hour and read the codes.", "riding", False),
        ("Look within five minutes after a ride.", "off", False),
        ("Ask whether he rides in the rain.", "off", False),
        ("Bike upright, rider on, measure the sag.", "off", False),
    ],
)
def test_a_check_that_is_ridden_says_so_in_its_key(do: str, bike: BikeState, is_told: bool) -> None:
    entry = fault("it-stalls", checks=(check(do=do, bike=bike, at="/checks/0"),))
    assert found(kb562_ride_in_check.RULE, entry) == (["/checks/0/do"] if is_told else [])


@pytest.mark.parametrize(
    "why", ["Everybody rides like that.", "They have always been like that.", "It is normal for this model."]
)
def test_a_habit_is_a_reason_for_strict_advice_only(why: str) -> None:
    rule = kb563_habit_as_reason.RULE
    mild = fault("it-shakes", ride_advice=advice("ride-with-care", why=why, at="/ride_advice"))
    strict = fault("it-shakes", ride_advice=advice("do-not-ride", why=why, at="/ride_advice"))
    assert found(rule, mild) == ["/ride_advice/why"]
    assert found(rule, strict) == []


@pytest.mark.parametrize(
    ("symptom", "is_told"),
    [
        ("Brake lever feels spongy", True),
        ("Smells of petrol in the garage", True),
        ("White smoke from the tail", True),
        ("Steering is stiff to the left", True),
        ("Fuel gauge shows empty with a full tank", False),
        ("Clock resets at each start", False),
    ],
)
def test_no_restriction_is_not_for_what_hurts(symptom: str, is_told: bool) -> None:
    entry = fault("it-is-odd", symptoms=(symptom,), ride_advice=advice("no-restriction"))
    assert found(kb564_harmful_symptom.RULE, entry) == (["/symptoms/0"] if is_told else [])


@pytest.mark.parametrize(
    ("place", "good", "unit", "is_told"),
    [
        ("battery posts", (9, 24), "V", True),
        ("battery posts", (11, 15.5), "V", True),
        ("battery posts", (12.5, 12.9), "V", False),
        ("battery posts", (9.6, 11.5), "V", False),
        ("battery plus to brown wire", (0, 0.2), "V", False),
        ("sensor plug", (-20, 400), "%", True),
        ("sensor plug", (4, 6), "kΩ", False),
        ("stator, wire to wire", (40, 70), "V", False),
        ("fuel rail", (2.8, 3.2), "bar", False),
    ],
)
def test_a_good_range_is_one_that_a_sound_machine_shows(
    place: str,
    good: tuple[float, float],
    unit: str,
    is_told: bool,
) -> None:
    # Common practice: 9.6 V while starting, 12.5 to 12.9 V at rest, 13.5 to 14.8 V charging, for 12 volts of lead acid.
    given = {"place": place, "good": span(*good), "unit": unit, "at": "/checks/0/reading"}
    measured = make(Reading, given, {})
    entry = fault("it-is-flat", checks=(check(reading=measured, expect=None, at="/checks/0"),))
    assert found(kb565_impossible_range.RULE, entry) == (["/checks/0/reading/good"] if is_told else [])
