"""What a plan reckons with, from entries; sums done by hand from the definitions of the costs."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from kbtools.checkplan import Owner, obstacles, plan_of, plan_record
from kbtools.checkplan.problem import IncompleteError, Problem, problem_of, problem_record
from kbtools.model.catalogue import Tool
from kbtools.model.check import Reading
from kbtools.model.fault import Fault, Part
from kbtools.model.money import Range
from tests.support.factories import access, advice, base, cause, check, club, fault, fix, index, span
from tests.support.plan_compare import Record, every_step
from tests.support.plan_problems import problem_from

TOOLS = [
    Tool(id="multimeter", name="Multimeter", usual=True, at=""),
    Tool(id="gauge", name="Gauge", usual=False, at=""),
]
JOBS = [
    access("seat-off", minutes=3.0),
    access("tank-off", "seat-off", minutes=35.0),
    access("rusty", skill="workshop"),
]


def part(price: Range | None) -> Part:
    return Part(name="Part", price=price, at="")


PLUG = cause(
    "plug",
    share=6.0,
    fix=fix(parts=(part(span(8, 20)), part(span(2)), part(None)), labour_hours=span(0.5, 1), access=("tank-off",)),
)
STATOR = cause("stator", share=3.0, fix=fix(skill="workshop", parts=(part(span(160, 320)),), labour_hours=span(2)))
LOOK = check("look", points_to=("plug",), minutes=5.0, cost=1.0, access=("tank-off",))


def problem(entry: Fault, **parts: Any) -> Problem:
    knowledge = base(entry, **{"tools": TOOLS, "access": JOBS, **parts})
    return problem_of(entry, index(knowledge))


def sags(**changes: Any) -> Fault:
    return fault("sags", **{"causes": (PLUG, STATOR), "checks": (LOOK,), **changes})


def plan(entry: Fault, owner: Owner | None = None, **parts: Any) -> Record:
    return plan_record(plan_of(problem(entry, **parts), owner or Owner()))


def step(found: Record, kind: str, name: str | None) -> Record:
    return next(each for each in every_step(found["steps"]) if (each["kind"], each["id"]) == (kind, name))


def test_middles_of_ranges_and_parts_added_up() -> None:
    found = problem(sags())
    plug, stator = found.fixes
    assert (plug.parts, plug.hours) == (14 + 2, 0.75)
    assert (stator.parts, stator.hours, stator.skill) == (240, 2, "workshop")
    assert (found.labour_rate, found.unlisted_repair, found.transport) == (82.5, 375, 0)


def test_the_plan_by_hand() -> None:
    """Shares .6, .3, .1 and no case. Seat and tank 38 minutes, so the check counts (5 + 38)/60 · 15 + 1 = 11.75.

    Plug at home with all open: 16 + .75 · 2 · 15 - 38/60 · 15 = 29; in a workshop 16 + 61.875, known 24.75 more.
    Handing over 82.5; stator 240 + 165, not listed 375. After a good result .3/.4 and .1/.4.
    """
    found = plan(sags())
    assert step(found, "check", "look")["cost"] == pytest.approx(11.75)
    assert step(found, "check", "look")["access"] == ["seat-off", "tank-off"]
    home = step(found, "fix", "plug")
    assert (home["where"], home["cost"], home["reach"]) == ("home", pytest.approx(29), pytest.approx(0.6))
    over = step(found, "hand_over", None)
    assert (over["cost"], over["reach"]) == (pytest.approx(82.5 + 0.75 * 405 + 0.25 * 375), pytest.approx(0.4))
    assert found["expected_cost"] == pytest.approx(11.75 + 0.6 * 29 + 0.4 * 480)
    assert found["baselines"]["hand_over"] == pytest.approx(82.5 + 0.6 * 77.875 + 0.3 * 405 + 0.1 * 375)
    assert found["baselines"]["likeliest_first"] == pytest.approx(found["expected_cost"])


def test_a_bike_that_may_not_be_ridden_is_fetched() -> None:
    entry = sags(ride_advice=advice("do-not-ride"))
    fetched = plan(entry, club=club(transport=span(60, 150)))
    assert step(fetched, "hand_over", None)["cost"] == pytest.approx(480 + 105)
    assert plan(entry)["expected_cost"] == plan(sags())["expected_cost"]


def test_the_workshop_mends_a_known_cause_where_the_owner_cannot_or_it_costs_less() -> None:
    lame = plan(sags(), Owner(lacks=frozenset({"multimeter"})))
    assert step(lame, "fix", "plug")["where"] == "home"
    plug = dataclasses.replace(PLUG, fix=dataclasses.replace(PLUG.fix, tools=("gauge",)))  # type: ignore[type-var]
    without = step(plan(sags(causes=(plug, STATOR))), "fix", "plug")
    assert (without["where"], without["cost"]) == ("workshop", pytest.approx(16 + 0.75 * 82.5 + 0.3 * 82.5))
    with_gauge = plan(sags(causes=(plug, STATOR)), Owner(has=frozenset({"gauge"})))
    assert step(with_gauge, "fix", "plug")["where"] == "home"
    dear = plan(sags(), Owner(own_time_value=90))
    assert [each["kind"] for each in dear["steps"]] == ["hand_over"]


def test_what_is_open_already_costs_nothing_and_its_needs_are_open_too() -> None:
    found = step(plan(sags(), Owner(opened=frozenset({"tank-off"}))), "check", "look")
    assert (found["cost"], found["access"]) == (pytest.approx(5 / 60 * 15 + 1), [])


def test_a_result_leaves_the_access_of_its_check_open_and_an_unclear_one_changes_nothing_else() -> None:
    more = check("more", points_to=("stator",), minutes=4.0, access=("tank-off",))
    entry = sags(checks=(LOOK, more))
    after_good = step(plan(entry, Owner(results={"look": "good"})), "check", "more")
    assert (after_good["cost"], after_good["access"], after_good["reach"]) == (pytest.approx(1), [], 1)
    unclear = plan(entry, Owner(results={"look": "unclear"}))
    assert [each["id"] for each in unclear["steps"] if each["kind"] == "check"] in ([], ["more"])
    assert unclear["baselines"]["hand_over"] == plan(entry)["baselines"]["hand_over"]


def test_results_that_contradict_each_other_have_no_plan() -> None:
    other = check("other", points_to=("stator",))
    found = plan(sags(checks=(LOOK, other)), Owner(results={"look": "bad", "other": "bad"}))
    assert found["expected_cost"] is None
    assert found["baselines"] == {"hand_over": None, "likeliest_first": None}
    assert found["steps"] == []
    assert [each["id"] for each in found["causes"]] == ["plug", "stator", "unlisted"]


def test_a_reading_has_two_sides_even_where_the_entry_knows_one() -> None:
    reading = Reading(
        place="battery",
        when=None,
        good=span(13.5, 14.8),
        unit="V",
        low_points_to=("plug",),
        high_points_to=(),
        at="",
    )
    entry = sags(checks=(check("volts", expect=None, reading=reading, minutes=1.0),))
    found = step(plan(entry), "check", "volts")
    assert list(found["outcomes"]) == ["low", "high"]
    assert found["outcomes"]["high"] == []
    assert plan(entry, Owner(results={"volts": "high"}))["expected_cost"] is None


def test_a_job_that_is_beyond_the_owner_or_does_not_exist_closes_the_check() -> None:
    for job in ("rusty", "nowhere"):
        shut = sags(checks=(dataclasses.replace(LOOK, access=(job,)),))
        assert [each["kind"] for each in plan(shut)["steps"]] == ["hand_over"]
        (look, *_) = obstacles(problem(shut), Owner())
        assert (look.kind, look.id, look.access) == ("check", "look", (job,))


def test_what_is_out_of_reach_is_named_with_its_reason() -> None:
    absent = dataclasses.replace(LOOK, only_while_present=True, tools=("gauge",))
    found = obstacles(problem(sags(checks=(absent,))), Owner(absent=True))
    assert [(each.kind, each.id, each.skill, each.tools, each.absent) for each in found] == [
        ("check", "look", False, ("gauge",), True),
        ("fix", "stator", True, (), False),
    ]


def test_access_jobs_that_need_each_other_do_not_hang() -> None:
    jobs = [access("seat-off", "tank-off"), access("tank-off", "seat-off")]
    assert plan(sags(), access=jobs)["expected_cost"] is not None


def test_an_entry_that_lacks_what_a_plan_takes_says_so() -> None:
    draft = sags(causes=(cause("a", fix=None), cause("b", fix=fix(labour_hours=None))), checks=(check(minutes=None),))
    with pytest.raises(IncompleteError, match="the fix of a, the labour hours for the fix of b, the minutes of look"):
        problem(draft)


def test_the_record_for_the_browser_is_the_whole_problem() -> None:
    entry = sags(checks=(LOOK, check("again", points_to=("plug", "stator"), finds=0.5)))
    assert problem_from(problem_record(problem(entry))) == problem(entry)


def test_twelve_alike_causes_and_checks_are_solved_in_time() -> None:
    """All options tie in all states: the worst that an entry can ask."""
    names = [f"c{number}" for number in range(12)]
    alike = sags(
        causes=tuple(cause(name) for name in names),
        checks=tuple(check(f"k{name}", points_to=(name,), finds=0.9) for name in names),
    )
    found = plan(alike)
    assert [each["id"] for each in found["steps"] if each["kind"] == "check"] == [f"k{name}" for name in names]


def too_large() -> Fault:
    """Twelve trial fixes beside twelve checks that miss, all of different weight."""
    names = [f"c{number}" for number in range(12)]
    return sags(
        causes=tuple(
            cause(name, share=float(number + 1), fix=fix(trial=True, parts=(part(span(number + 1)),)))
            for number, name in enumerate(names)
        ),
        checks=tuple(
            check(f"k{number}", points_to=tuple(names[number : number + 2]), finds=0.8, minutes=1.0)
            for number in range(12)
        ),
    )
