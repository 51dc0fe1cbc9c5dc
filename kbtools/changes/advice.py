"""What a published fault advises whoever opens its page: the few things that an owner acts on."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from kbtools.checkplan import Owner, plan_of
from kbtools.checkplan.problem import IncompleteError, Problem, problem_of
from kbtools.index.answers import Index
from kbtools.model.case import UNLISTED
from kbtools.model.fault import Fault
from kbtools.model.ride_advice import RideLevel


@dataclass(frozen=True, slots=True, kw_only=True)
class Plans:
    """What the plan of a fault says to an owner of whom nothing is known."""

    first: str | None
    """`kind:id` of the first step; `hand_over` has no id."""
    likeliest: str | None
    """Id of the likeliest listed cause."""
    shares: Mapping[str, float]
    """Id of a cause → its share, `unlisted` among them."""
    expected_cost: float | None
    """In the club's currency."""
    hand_over: float | None
    """Likewise, of handing the bike over at once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """What a published fault advises."""

    level: RideLevel | None
    """The fault's own."""
    signs: frozenset[str]
    """What an owner is told beside the level, each a short sentence that names it: stop signs, limits, codes …"""
    plan: Plans
    """What its plan says."""


NO_PLAN = Plans(first=None, likeliest=None, shares={}, expected_cost=None, hand_over=None)
"""Of an entry that lacks what a plan takes, or of a base without a club."""


def reckoned_with(fault: Fault, index: Index | None) -> Problem | None:
    """All that the plan of a fault depends on; None where there is no plan."""
    if index is None or index.base.club is None:
        return None
    try:
        return problem_of(fault, index)
    except IncompleteError:
        return None


def plans(problem: Problem | None) -> Plans:
    """What the plan says."""
    if problem is None:
        return NO_PLAN
    plan = plan_of(problem, Owner())
    step = plan.steps[0] if plan.steps else None
    first = None if step is None else step.kind if step.id is None else f"{step.kind}:{step.id}"
    return Plans(
        first=first,
        likeliest=next((each.id for each in plan.causes if each.id != UNLISTED), None),
        shares={each.id: each.mean for each in plan.causes},
        expected_cost=plan.expected_cost,
        hand_over=plan.hand_over,
    )


def signs(fault: Fault) -> frozenset[str]:
    """What is said beside the level and the plan; texts of the author in them are hostile."""
    return frozenset(itertools.chain(_of_riding(fault), _of_codes(fault), _of_work(fault)))


def _of_riding(fault: Fault) -> Iterator[str]:
    if fault.does_not_start is not None:
        yield f"does not start: {fault.does_not_start}"
    advice = fault.ride_advice
    if advice is None:
        return
    yield from (f"stop sign: {sign}" for sign in advice.stop_if)
    if advice.max_speed is not None:
        yield f"not faster than {advice.max_speed.text}"
    if advice.max_distance is not None:
        yield f"not farther than {advice.max_distance.text}"


def _of_codes(fault: Fault) -> Iterator[str]:
    for row in fault.codes:
        code = row.read.text if row.unit is None else f"{row.unit}:{row.read.text}"
        yield f"code {code} {'follows from another' if row.follow_on else 'leads here'}"
        if row.ride_advice is not None:
            yield f"with code {code}: {row.ride_advice.level}"


def _of_work(fault: Fault) -> Iterator[str]:
    for cause in fault.causes:
        if cause.ride_advice is not None:
            yield f"with cause {cause.id}: {cause.ride_advice.level}"
        if cause.fix is not None and cause.fix.trial:
            yield f"trial fix: {cause.id}"
    yield from (f"before riding: {check.id}" for check in fault.checks if check.before_riding)
