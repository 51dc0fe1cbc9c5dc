"""The plan against brute force: every decision tree listed, on random problems over every feature (`plan_brute.py`)."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

import pytest

from kbtools.checkplan import Step, plan_of, plan_record
from kbtools.checkplan.beside import second_faults
from tests.support.make_plan_vectors import plans, share_vectors
from tests.support.places import VECTORS
from tests.support.plan_brute import Brute, TooManyError
from tests.support.plan_compare import NEAR, deviation, every_step, worst
from tests.support.plan_instances import answered, instance
from tests.support.plan_problems import owner_from, problem_from

Record = dict[str, Any]
CASES: Record = json.loads((VECTORS / "plan.json").read_text(encoding="utf-8"))
FIRST, COUNT = 10_000, 900
"""Other instances than those of the vectors."""


@cache
def instances() -> list[tuple[Record, Record]]:
    return [instance(number) for number in range(FIRST, FIRST + COUNT)]


@cache
def solved() -> list[Record]:
    return [solve(problem, owner) for problem, owner in instances()]


def solve(problem: Record, owner: Record) -> Record:
    return plan_record(plan_of(problem_from(problem), owner_from(owner)))


def test_every_plan_is_the_best_of_all_trees_to_the_last_step() -> None:
    compared, most, deviations = 0, 0, [0.0]
    for (problem, owner), found in zip(instances(), solved(), strict=True):
        try:
            wanted = Brute(problem, owner).solve()
        except TooManyError:
            continue
        compared += 1
        most = max(most, wanted["trees"])
        deviations.append(worst(wanted, found))
    assert compared >= 800
    assert most > 10_000
    assert max(deviations) <= NEAR


def test_answers_to_all_checks_lead_where_the_contract_says_second_faults_too() -> None:
    seconds = 0
    for number in range(60_000, 60_600):
        problem, owner = answered(number)
        wanted = Brute(problem, owner).solve()
        assert worst(wanted, solve(problem, owner)) <= NEAR, number
        seconds += bool(second_faults(problem_from(problem), owner_from(owner)))
    assert seconds > 10


def test_the_instances_use_every_feature() -> None:
    steps = [step for plan in solved() for step in every_step(plan["steps"])]
    kinds = [step["kind"] for step in steps]
    assert min(kinds.count(kind) for kind in ("check", "trial_fix", "fix", "hand_over")) >= 50
    assert {step.get("where") for step in steps if step["kind"] == "fix"} == {"home", "workshop", "maker"}
    assert any(len(step["access"]) > 1 for step in steps)
    assert sum(plan["expected_cost"] is None for plan in solved()) >= 10
    assert sum(len(plan["steps"]) > 3 for plan in solved()) >= 30
    imperfect = {check["id"] for problem, _ in instances() for check in problem["checks"] if check["finds"] < 1}
    assert imperfect
    assert any("high" in step["outcomes"] and step["outcomes"]["high"] for step in steps)


def test_reach_times_cost_adds_up_to_the_expected_cost() -> None:
    for plan in solved():
        if plan["expected_cost"] is not None:
            total = sum(step["reach"] * step["cost"] for step in every_step(plan["steps"]))
            assert deviation(plan["expected_cost"], total) <= NEAR


def test_somebody_ends_every_plan() -> None:
    """The chances to get to a last step, or to a trial fix that helps, add up to one."""
    for (problem, owner), plan in zip(instances(), solved(), strict=True):
        if not plan["steps"]:
            continue
        chances = plan_of(problem_from(problem), owner_from(owner)).chances
        steps = list(every_step(plan["steps"]))
        ends = sum(step["reach"] for step in steps if step["kind"] in {"fix", "hand_over"})
        helped = plan["steps"][0]["reach"] - ends
        assert helped >= -NEAR
        if all(step["kind"] != "trial_fix" for step in steps):
            assert helped == pytest.approx(0, abs=1e-9)
        assert sum(chances.values()) == pytest.approx(1)


def test_no_plan_is_dearer_than_a_baseline() -> None:
    for plan in solved():
        if plan["expected_cost"] is not None:
            least = min(plan["baselines"].values())
            assert plan["expected_cost"] <= least + NEAR * max(1.0, least)


def test_a_better_equipped_owner_never_pays_more() -> None:
    less = 0
    for (problem, owner), plan in zip(instances(), solved(), strict=True):
        cost = plan["expected_cost"]
        if cost is None:
            continue
        higher = {"home": "experienced", "experienced": "workshop", "workshop": "workshop"}[owner["skill"]]
        better = [{**owner, "skill": higher}, {**owner, "lacks": []}, {**owner, "has": list(problem["tools"])}]
        better.append({**owner, "absent": False})
        for each in better:
            now = solve(problem, each)["expected_cost"]
            assert now <= cost + NEAR * max(1.0, cost)
            less += now < cost - 1e-6
    assert less > 100


def test_a_plan_goes_on_as_it_said_once_the_result_is_given() -> None:
    """Replanning after the first step's result gives the very steps that the tree has there."""
    compared = 0
    for problem, owner in instances():
        plan = plan_of(problem_from(problem), owner_from(owner))
        if not plan.steps or plan.steps[0].kind != "check" or plan.steps[0].id is None:
            continue
        first = plan.steps[0]
        for result, following in [("good", plan.steps[1:]), *first.outcomes.items()]:
            if following:
                results = {**owner["results"], first.id: result}
                after = plan_of(problem_from(problem), owner_from({**owner, "results": results}))
                assert shapes(after.steps) == shapes(following)
                assert after.expected_cost == pytest.approx(cost_of(following) / following[0].reach)
                compared += 1
    assert compared > 300


def shapes(steps: tuple[Step, ...]) -> list[object]:
    return [(step.kind, step.id, {name: shapes(then) for name, then in step.outcomes.items()}) for step in steps]


def cost_of(steps: tuple[Step, ...]) -> float:
    below = sum(cost_of(then) for step in steps for then in step.outcomes.values())
    return below + sum(step.reach * step.cost for step in steps)


def test_the_expected_minutes_are_those_of_the_best_tree() -> None:
    for problem, owner in instances()[:300]:
        try:
            wanted = Brute(problem, owner).solve()
        except TooManyError:
            continue
        minutes = plan_of(problem_from(problem), owner_from(owner)).minutes
        assert deviation(wanted.get("minutes"), minutes) <= NEAR


# The vectors, which the browser is held to as well


def test_plans_are_those_of_the_vectors() -> None:
    assert len(CASES["plans"]) >= 200
    for row in CASES["plans"]:
        assert worst(row["expected"], solve(row["problem"], row["owner"])) <= NEAR, row["number"]


def test_the_vectors_are_what_their_script_writes() -> None:
    """The first of them, written anew: nobody has changed them by hand, nor the script without them."""
    for wanted, row in zip(plans(12), CASES["plans"], strict=False):
        assert (wanted["problem"], wanted["owner"]) == (row["problem"], row["owner"])
        assert worst(wanted["expected"], row["expected"]) <= 1e-12
    for wanted, row in zip(share_vectors(8), CASES["shares"], strict=False):
        assert wanted["evidence"] == row["evidence"]
