"""Plans against published results on the order of checks, and against sums that a reader can follow.

Where its assumptions hold (one fault, independent costs, perfect checks of one cause each, a check needed for every
cause), falling probability over cost is the best order: Kadane and Simon; Kalagnanam and Henrion, arXiv 1304.2362, on
motorcycle engines. It is Smith's rule (W. E. Smith, 1956) for weighted completion times. Where they do not hold it is
not, and the plan must be the exact one.
"""

from __future__ import annotations

from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbtools.checkplan import Owner, Plan, plan_of
from kbtools.checkplan.problem import AccessWork, CheckWork, FixWork, Problem
from kbtools.evidence import CauseCases, Evidence
from kbtools.model.case import CheckResult

NOTHING = 1e-10
"""Share of a cause that is not listed, where the published case knows none."""


def check(id: str, *causes: str, cost: float, access: tuple[str, ...] = (), finds: float = 1) -> CheckWork:  # noqa: A002
    return CheckWork(
        id=id,
        outcomes=(("bad", causes),),
        good=None,
        finds=finds,
        only_while_present=False,
        before_riding=False,
        bike="off",
        minutes=0,
        cost=cost,
        skill="home",
        tools=(),
        access=access,
    )


def problem(
    shares: dict[str, float],
    checks: list[CheckWork],
    *,
    fixes: dict[str, float] | None = None,
    hand_over: float = 10_000,
    access: tuple[AccessWork, ...] = (),
    trials: frozenset[str] = frozenset(),
    unlisted_repair: float = 0,
) -> Problem:
    """Fixes cost their parts, at home; handing over costs `hand_over` besides."""
    unlisted = max(1 - sum(shares.values()), NOTHING)
    return Problem(
        fault="f",
        currency="EUR",
        own_time_value=60,
        home_time_factor=1,
        labour_rate=hand_over,
        diagnosis_hours=1,
        confirm_hours=1,
        transport=0,
        unlisted_repair=unlisted_repair,
        evidence=Evidence(
            prior_strength=1,
            unlisted_share=unlisted,
            causes=tuple(
                CauseCases(id=cause, component=None, weight=share, applies=None, counted={})
                for cause, share in shares.items()
            ),
            unlisted={},
        ),
        access=access,
        tools={},
        fixes=tuple(
            FixWork(
                id=cause,
                parts=(fixes or {}).get(cause, 0),
                hours=0,
                skill="home",
                tools=(),
                access=(),
                trial=cause in trials,
            )
            for cause in shares
        ),
        checks=tuple(checks),
    )


def order(plan: Plan) -> str:
    return "".join(step.id or "" for step in plan.steps if step.kind == "check")


def solve(asked: Problem, results: dict[str, CheckResult] | None = None) -> Plan:
    return plan_of(asked, Owner(results=results or {}))


# Published cases


def test_four_causes_with_a_check_each() -> None:
    """Optimum 47.5 by b-c-a-d (or c-b-a-d); likeliest first 67."""
    shares = {"a": 0.5, "b": 0.3, "c": 0.15, "d": 0.05}
    costs = {"a": 60, "b": 10, "c": 5, "d": 20}
    plan = solve(problem(shares, [check(each, each, cost=costs[each]) for each in shares]))
    assert plan.expected_cost == pytest.approx(47.5, abs=1e-4)
    assert order(plan) == "bcad"
    assert plan.likeliest_first == pytest.approx(67, abs=1e-4)


def test_a_hundred_if_it_is_none_of_them() -> None:
    """p (.45, .25, .20), c (30, 10, 40), 100 if none: b-a-c 54.5, likeliest first 57.5."""
    shares = {"a": 0.45, "b": 0.25, "c": 0.20}
    costs = {"a": 30, "b": 10, "c": 40}
    asked = problem(shares, [check(each, each, cost=costs[each]) for each in shares], hand_over=100)
    plan = solve(asked)
    assert plan.expected_cost == pytest.approx(54.5)
    assert order(plan) == "bac"
    assert plan.likeliest_first == pytest.approx(57.5)


@pytest.mark.parametrize(
    ("share", "costs", "ab", "ba"),
    [(0.3, (20, 50), 134, 135), (0.3, (20, 40), 127, 125), (0.25, (10, 30), 110, 110)],
)
def test_two_causes_with_dear_fixes(share: float, costs: tuple[int, int], ab: float, ba: float) -> None:
    """Fixes of 100 and 70, a check needed for each: what the fixes cost does not change the order."""
    shares = {"a": share, "b": 1 - share}
    checks = [check("a", "a", cost=costs[0]), check("b", "b", cost=costs[1])]
    plan = solve(problem(shares, checks, fixes={"a": 100, "b": 70}))
    assert plan.expected_cost == pytest.approx(min(ab, ba), abs=1e-4)
    if ab != ba:
        assert order(plan) == ("ab" if ab < ba else "ba")


def test_access_that_two_checks_share() -> None:
    """Access of 40 for a and b, p (.2, .3, .5), c (5, 10, 25): ratio order 65.5, optimum c-a-b 50.5."""
    shares = {"a": 0.2, "b": 0.3, "c": 0.5}
    checks = [
        check("a", "a", cost=5, access=("off",)),
        check("b", "b", cost=10, access=("off",)),
        check("c", "c", cost=25),
    ]
    off = AccessWork(id="off", minutes=40, skill="home", needs=(), allows="riding")
    plan = solve(problem(shares, checks, access=(off,)))
    assert plan.expected_cost == pytest.approx(50.5, abs=1e-4)
    assert order(plan) == "cab"


# Where the last cause is inferred, and where checks overlap: sums done by hand


def test_the_last_cause_is_inferred_without_its_check() -> None:
    """Only a or b is left. Probability over cost says a (.9/20 before .1/10), but the cheaper check tells as much.

    Check b: 10, then the fix, whichever it is. Check a: 20.
    """
    shares = {"a": 0.9, "b": 0.1}
    both = check("both", "a", "b", cost=0)
    asked = problem(shares, [check("a", "a", cost=20), check("b", "b", cost=10), both], fixes={"a": 100, "b": 70})
    plan = solve(asked, {"both": "bad"})
    assert plan.expected_cost == pytest.approx(10 + 0.9 * 100 + 0.1 * 70)
    assert [(step.kind, step.id) for step in plan.steps] == [("check", "b"), ("fix", "a")]
    assert plan.steps[1].inferred
    assert not plan.steps[0].outcomes["bad"][0].inferred


def test_checks_that_overlap_single_a_cause_out_together() -> None:
    """A {1, 2}, B {1, 3}, C {2, 4}, p (.3, .3, .2, .2), each 10, all fixes free.

    A first, 10; bad (.6): B tells 1 from 2, 10. Good (.4): 3 or 4, or none of them; B shows 3, 10; good (.2): C shows
    4, 10. In all 10 + 6 + 4 + 2 = 22. C first costs 10 + 5 + 5 + 2 = 22 as well, B first 10 + 5 + 5 + 5 = 25. Of equal
    ones the first in the file.
    """
    shares = {"1": 0.3, "2": 0.3, "3": 0.2, "4": 0.2}
    checks = [check("A", "1", "2", cost=10), check("B", "1", "3", cost=10), check("C", "2", "4", cost=10)]
    plan = solve(problem(shares, checks))
    assert plan.expected_cost == pytest.approx(22, abs=1e-4)
    assert order(plan) == "ABC"


# The theorem


@st.composite
def cases(draw: st.DrawFn) -> tuple[list[float], list[float]]:
    count = draw(st.integers(1, 6))
    weights = draw(st.lists(st.integers(1, 40), min_size=count, max_size=count))
    costs = draw(st.lists(st.integers(1, 60), min_size=count, max_size=count))
    return [weight / sum(weights) for weight in weights], [float(cost) for cost in costs]


def smith(shares: list[float], costs: list[float], order: tuple[int, ...]) -> float:
    """What an order of checks costs, each paid until the cause is found."""
    left, total = 1.0, 0.0
    for each in order:
        total += left * costs[each]
        left -= shares[each]
    return total


@settings(max_examples=60, deadline=None)
@given(cases())
def test_falling_probability_over_cost_is_best_where_its_assumptions_hold(
    case: tuple[list[float], list[float]],
) -> None:
    shares, costs = case
    names = [f"c{number}" for number in range(len(shares))]
    checks = [check(name, name, cost=cost) for name, cost in zip(names, costs, strict=True)]
    plan = solve(problem(dict(zip(names, shares, strict=True)), checks, hand_over=1e6))
    ratio = sorted(range(len(shares)), key=lambda each: -shares[each] / costs[each])
    best = min(smith(shares, costs, each) for each in permutations(range(len(shares))))
    assert smith(shares, costs, tuple(ratio)) == pytest.approx(best)
    # A bike without any of these causes costs a million, times one in ten thousand million.
    assert plan.expected_cost == pytest.approx(best, abs=1e-3)
    places = [int(step.id[1:]) for step in plan.steps if step.kind == "check" and step.id]
    assert smith(shares, costs, tuple(places)) == pytest.approx(best)


@settings(max_examples=60, deadline=None)
@given(cases(), st.floats(0.3, 0.99))
def test_a_check_that_misses_is_worth_less(case: tuple[list[float], list[float]], finds: float) -> None:
    shares, costs = case
    names = [f"c{number}" for number in range(len(shares))]
    listed = {name: share * 0.9 for name, share in zip(names, shares, strict=True)}

    def cost(chance: float) -> float:
        checks = [check(name, name, cost=each, finds=chance) for name, each in zip(names, costs, strict=True)]
        return solve(problem(listed, checks, hand_over=200)).expected_cost or 0.0

    assert cost(1) <= cost(finds) + 1e-9 <= 200 + 2e-9


def test_a_trial_fix_stands_in_for_a_check() -> None:
    """p .6, parts 10, no check: trying costs 10, and four times in ten 100 more: 50, against 100."""
    shares = {"a": 0.6}
    plan = solve(problem(shares, [], fixes={"a": 10}, trials=frozenset("a"), hand_over=100))
    assert plan.expected_cost == pytest.approx(10 + 0.4 * 100)
    assert [(step.kind, step.id) for step in plan.steps] == [("trial_fix", "a"), ("hand_over", None)]
