"""A plan as `kbtools plan --format json` prints it: the contract with whoever reads it. Nothing is rounded."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from kbtools.checkplan.beside import (
    Beside,
    Word,
    bad_before_riding,
    before_riding,
    free_record,
    may_be_free,
    ride_advice,
    word_record,
)
from kbtools.checkplan.owner import Owner
from kbtools.checkplan.problem import Problem
from kbtools.checkplan.steps import Plan, Step

Record = dict[str, object]


def plan_record(plan: Plan) -> Record:
    """`{"fault", "expected_cost", "currency", "baselines", "exact", "steps", "causes"}`; `at_least` where not exact."""
    return {
        "fault": plan.fault,
        "expected_cost": plan.expected_cost,
        "currency": plan.currency,
        "baselines": {"hand_over": plan.hand_over, "likeliest_first": plan.likeliest_first},
        "exact": plan.at_least is None,
        **({} if plan.at_least is None else {"at_least": plan.at_least}),
        "steps": _steps(plan.steps),
        "causes": [
            {"id": each.id, "share": each.mean, "low": each.low, "high": each.high, "cases": each.cases}
            for each in plan.causes
        ],
    }


def whole_record(plan: Plan, problem: Problem, owner: Owner, beside: Beside, codes: Sequence[Word] = ()) -> Record:
    """The same with what stands beside the cost: `before_riding`, `ride_advice`, `may_be_free`.

    Args:
        plan: of the problem for the owner.
        problem: what the plan was reckoned with.
        owner: for whom.
        beside: of the entry.
        codes: advice of the codes that were given.
    """
    return {
        **plan_record(plan),
        "before_riding": list(before_riding(problem, owner)),
        "ride_advice": word_record(ride_advice(beside, plan.chances, codes, bad_before_riding(problem, owner))),
        "may_be_free": [free_record(work) for work in may_be_free(beside, owner.bike)],
    }


def _steps(steps: Iterable[Step]) -> list[Record]:
    return [_step(step) for step in steps]


def _step(step: Step) -> Record:
    found: Record = {
        "kind": step.kind,
        "id": step.id,
        "cost": step.cost,
        "reach": step.reach,
        "access": list(step.access),
        "outcomes": {name: _steps(steps) for name, steps in step.outcomes.items()},
    }
    return found if step.kind != "fix" else {**found, "where": step.where}
