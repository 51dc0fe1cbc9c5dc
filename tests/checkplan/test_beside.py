"""What stands beside the cost: riding, checks before riding, what may be free. Expected values from the definitions."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from kbtools.checkplan import Owner, plan_of, whole_record
from kbtools.checkplan.beside import beside_of, second_faults, words_of_codes
from kbtools.checkplan.problem import problem_of
from kbtools.checkplan.search import Search
from kbtools.checkplan.table import start_of, table_of
from kbtools.index.codes import rows_of_code
from kbtools.model.codes import read_code
from kbtools.model.fault import Fault
from tests.support.factories import (
    FORMATS,
    access,
    advice,
    base,
    cause,
    check,
    club,
    code,
    fault,
    fix,
    index,
    row,
    source,
    span,
)

Record = dict[str, Any]

WORN = cause("worn", ride_advice=advice("do-not-ride", why="It seizes."))
LOOSE = cause("loose")
LOOK = check("look", points_to=("worn",), finds=0.9)


def entry(**changes: Any) -> Fault:
    changes = {"causes": (WORN, LOOSE), "checks": (LOOK,), "ride_advice": advice("ride-to-workshop"), **changes}
    return fault("f", **changes)


def told(entry: Fault, owner: Owner | None = None, codes: tuple[str, ...] = (), **parts: Any) -> Record:
    owner = owner or Owner()
    known = index(base(entry, **parts))
    problem = problem_of(entry, known)
    read = [read_code(each, FORMATS).code for each in codes]
    rows = [(each.text, found) for each in read if each for found in rows_of_code(entry, each, None, FORMATS)]
    plan = plan_of(problem, owner)
    return whole_record(plan, problem, owner, beside_of(entry, known), tuple(words_of_codes(rows)))


def after(**results: Any) -> Owner:
    return Owner(results=results)


# Riding


def test_without_a_result_the_advice_is_the_faults() -> None:
    assert told(entry())["ride_advice"] == {"level": "ride-to-workshop", "why": "Because.", "from": "fault:f"}


def test_a_cause_that_is_likely_now_has_its_own_stricter_advice() -> None:
    # Shares .45, .45, .1 (two causes alike and one tenth for others): with the check bad it is worn for sure.
    found = told(entry(), after(look="bad"))
    assert found["ride_advice"] == {"level": "do-not-ride", "why": "It seizes.", "from": "cause:worn"}


@pytest.mark.parametrize(("share", "level"), [(5.0, "do-not-ride"), (4.9, "ride-to-workshop")])
def test_from_a_half_on_a_cause_is_likely(share: float, level: str) -> None:
    # Of 5 : 4 and a tenth unlisted, the first has 5/9 · 0.9 = 0.5 exactly.
    causes = (dataclasses.replace(WORN, share=share), dataclasses.replace(LOOSE, share=4.0))
    assert told(entry(causes=causes))["ride_advice"]["level"] == level


def test_a_code_that_was_given_may_call_for_stricter_advice() -> None:
    rows = (code("P0562", ride_advice=advice("do-not-ride", why="It boils.")), code("P0563"))
    changed = entry(codes=rows)
    assert told(changed)["ride_advice"]["level"] == "ride-to-workshop"
    assert told(changed, codes=("P0563",))["ride_advice"]["level"] == "ride-to-workshop"
    strict = {"level": "do-not-ride", "why": "It boils.", "from": "code:P0562"}
    assert told(changed, codes=("P0563", "P0562"))["ride_advice"] == strict
    # A reader that shows a failure type means the same row.
    assert told(changed, codes=("P0562-11",))["ride_advice"]["from"] == "code:P0562-11"


def test_of_equally_strict_ones_the_faults_comes_first_then_the_causes() -> None:
    rows = (code("P0562", ride_advice=advice("do-not-ride")),)
    assert told(entry(codes=rows), after(look="bad"), ("P0562",))["ride_advice"]["from"] == "cause:worn"
    strict = entry(codes=rows, ride_advice=advice("do-not-ride"))
    assert told(strict, after(look="bad"), ("P0562",))["ride_advice"]["from"] == "fault:f"


def test_results_that_contradict_leave_the_faults_advice() -> None:
    checks = (LOOK, check("pull", points_to=("loose",)))
    found = told(entry(checks=checks), after(look="bad", pull="bad"))
    assert found["expected_cost"] is None
    assert found["ride_advice"]["from"] == "fault:f"


# Before riding


AGAIN = check("again", points_to=("loose",), before_riding=True, skill="workshop")


def test_checks_before_riding_are_named_until_they_are_done_whoever_can() -> None:
    whole = entry(checks=(LOOK, AGAIN))
    assert told(whole)["before_riding"] == ["again"]
    assert told(whole, after(again="unclear"))["before_riding"] == ["again"]
    assert told(whole, after(again="good"))["before_riding"] == []


def test_a_bad_one_after_the_cause_was_found_is_a_second_fault_and_no_contradiction() -> None:
    whole = entry(causes=(cause("worn"), LOOSE), checks=(LOOK, AGAIN))
    both = after(look="bad", again="bad")
    found = told(whole, both)
    # As after the first result alone: one fix at home, half an hour to an hour, no parts: 0.75 · 2 · 15.
    assert found["expected_cost"] == pytest.approx(22.5)
    assert [(step["kind"], step["id"]) for step in found["steps"]] == [("fix", "worn")]
    assert found["ride_advice"]["level"] == "do-not-ride"
    assert found["ride_advice"]["from"] == "check:again"
    assert second_faults(problem_of(whole, index(base(whole))), both) == {"again": ("loose",)}
    # Good again: then it may be ridden as the fault says.
    assert told(whole, after(look="bad", again="good"))["ride_advice"]["level"] == "ride-to-workshop"


def test_one_that_is_bad_first_is_a_result_like_any_other() -> None:
    whole = entry(causes=(cause("worn"), LOOSE), checks=(LOOK, AGAIN))
    assert [step["id"] for step in told(whole, after(again="bad"))["steps"]] == ["loose"]
    # And what then speaks for another cause contradicts: only a check before riding tells of a second fault.
    assert told(whole, after(again="bad", look="bad"))["expected_cost"] is None


# What may be free


RECALL = source("recall", number="2013-005", applies_to=(row(when="2005"),), covers=("worn",))
BULLETIN = source("bulletin", number="B7")


def test_recalls_and_bulletins_of_the_bike_are_named_with_what_they_cover() -> None:
    whole = entry(sources=(source(), BULLETIN, RECALL))
    free = [
        {"source": "2013-005", "kind": "recall", "covers": ["worn"]},
        {"source": "B7", "kind": "bulletin", "covers": ["worn", "loose"]},
    ]
    assert told(whole)["may_be_free"] == free
    assert told(whole, Owner(bike=("bittern-900", 2005)))["may_be_free"] == free
    assert told(whole, Owner(bike=("bittern-900", 2006)))["may_be_free"] == free[1:]


def test_what_may_be_free_changes_no_cost() -> None:
    without = told(entry())["expected_cost"]
    assert told(entry(sources=(RECALL,)))["expected_cost"] == without


# Money


def test_a_bike_that_does_not_start_is_fetched() -> None:
    transport: dict[str, Any] = {"club": club(transport=span(60, 150))}
    before = told(entry(), **transport)["baselines"]["hand_over"]
    assert told(entry(does_not_start="sometimes"), **transport)["baselines"]["hand_over"] == before
    # The middle of 60 and 150.
    fetched = told(entry(does_not_start="yes"), **transport)["baselines"]["hand_over"]
    assert fetched == pytest.approx(before + 105)
    # Once, even where it must not be ridden either.
    both = entry(does_not_start="yes", ride_advice=advice("do-not-ride"))
    assert told(both, **transport)["baselines"]["hand_over"] == pytest.approx(before + 105)


def test_a_cause_that_the_maker_pays_for_costs_the_way_there() -> None:
    """Transport 105; shares .45, .45, .1. A workshop takes .75 · 82.5 = 61.875, the maker nothing."""
    strict = entry(ride_advice=advice("do-not-ride"))
    transport: dict[str, Any] = {"club": club(transport=span(60, 150))}
    own, free = Owner(), Owner(covered=frozenset({"worn"}))
    saved = told(strict, own, **transport)["baselines"]["hand_over"]
    saved -= told(strict, free, **transport)["baselines"]["hand_over"]
    assert saved == pytest.approx(0.45 * 61.875)
    found = told(strict, Owner(covered=frozenset({"worn"}), results={"look": "bad"}), **transport)
    assert [(step["kind"], step["cost"], step["where"]) for step in found["steps"]] == [("fix", 105, "maker")]


def test_nobody_tries_a_fix_that_the_maker_pays_for() -> None:
    trial = entry(causes=(cause("worn", fix=fix(trial=True)), LOOSE), checks=())
    assert any(step["kind"] == "trial_fix" for step in told(trial)["steps"])
    assert not any(step["kind"] == "trial_fix" for step in told(trial, Owner(covered=frozenset({"worn"})))["steps"])


def test_what_forbids_a_check_is_closed_before_it_and_opened_again_after() -> None:
    """Tank 30 minutes, cover 10 that needs it, side panel 5: the engine runs with the panel off alone.

    After a look behind the cover (tank, cover and panel open) a running check closes tank and cover. Looking behind the
    cover again costs 40 minutes at 15 an hour: 10.
    """
    jobs = [
        access("tank-off", minutes=30.0, allows="key-on"),
        access("cover-off", "tank-off", minutes=10.0),
        access("panel-off", minutes=5.0),
    ]
    checks = (
        check("behind", points_to=("worn",), access=("cover-off",), minutes=0.0, finds=0.9),
        check("running", points_to=("loose",), access=("panel-off",), bike="running", minutes=0.0),
        check("again", points_to=("worn",), access=("cover-off",), minutes=0.0, finds=0.9),
    )
    whole = entry(checks=checks, causes=(cause("worn"), LOOSE, cause("other")))

    def cost_of(name: str, owner: Owner) -> float:
        problem = problem_of(whole, index(base(whole, access=jobs)))
        search = Search(table_of(problem, owner))
        place = [each.id for each in checks].index(name)
        return search.check_cost(place, start_of(search.table, owner.results)[2])

    assert cost_of("behind", after()) == pytest.approx(40 / 60 * 15)
    assert cost_of("again", after(behind="good")) == 0
    assert cost_of("again", after(behind="good", running="good")) == pytest.approx(40 / 60 * 15)
    # In the other order nothing is closed in between.
    assert cost_of("again", after(running="good", behind="good")) == 0
    # The panel stays open through both.
    panel = after(running="good", behind="good")
    assert cost_of("running", panel) == pytest.approx(0)
    assert cost_of("running", Owner(opened=frozenset({"cover-off"}))) == pytest.approx(5 / 60 * 15)
