"""Plans that have too many states to be solved: a good one all the same, with a bound that holds."""

from __future__ import annotations

from typing import Any

import pytest

from kbtools.checkplan import Owner, plan_of, plan_record
from tests.checkplan.test_problem import problem, too_large
from tests.support.plan_compare import NEAR, every_step
from tests.support.plan_instances import instance
from tests.support.plan_problems import owner_from, problem_from

Record = dict[str, Any]


def squeezed(number: int, most: int) -> tuple[Record, Record]:
    """The best plan of a random problem, and the one that is found with so few states."""
    data, owner = instance(number, most_causes=6, most_checks=6)
    whole = plan_of(problem_from(data), owner_from(owner))
    return plan_record(whole), plan_record(plan_of(problem_from(data), owner_from(owner), most))


@pytest.mark.parametrize("most", [0, 3, 20])
def test_a_plan_with_few_states_lies_between_the_bound_and_the_baselines(most: int) -> None:
    bounded = dearer = tight = 0
    for number in range(30_000, 30_250):
        best, found = squeezed(number, most)
        if found["exact"]:
            assert "at_least" not in found
            assert found["expected_cost"] == best["expected_cost"]
            continue
        bounded += 1
        cost, least = found["expected_cost"], min(found["baselines"].values())
        slack = NEAR * max(1.0, cost)
        assert found["at_least"] <= best["expected_cost"] + slack
        assert best["expected_cost"] <= cost + slack
        assert cost <= least + slack
        assert found["baselines"] == best["baselines"]
        dearer += cost > best["expected_cost"] + slack
        tight += found["at_least"] > 0.5 * best["expected_cost"]
        assert sum(step["reach"] * step["cost"] for step in every_step(found["steps"])) == pytest.approx(cost)
    assert bounded >= 20
    # A bound that is next to nothing would say nothing.
    assert tight > bounded / 2
    if most < 20:
        assert dearer > 0, "with so few states not every plan can be the best"


def test_a_plan_that_can_be_solved_says_that_it_is_the_best() -> None:
    assert all(squeezed(number, 100_000)[1]["exact"] for number in range(30_000, 30_040))


def test_an_entry_that_nobody_would_wait_for_has_a_plan_and_a_bound() -> None:
    found = plan_of(problem(too_large()), Owner(), 2_000)
    assert found.expected_cost is not None
    assert found.at_least is not None
    assert found.hand_over is not None
    assert found.likeliest_first is not None
    assert 0 < found.at_least <= found.expected_cost <= min(found.hand_over, found.likeliest_first)
    assert found.steps
