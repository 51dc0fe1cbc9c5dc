"""A plan as `kbtools plan --format json` prints it: the contract with whoever reads it. Nothing is rounded."""

from __future__ import annotations

from collections.abc import Iterable

from kbtools.checkplan.steps import Plan, Step

Record = dict[str, object]


def plan_record(plan: Plan) -> Record:
    """`{"fault", "expected_cost", "currency", "baselines", "steps", "causes"}`."""
    return {
        "fault": plan.fault,
        "expected_cost": plan.expected_cost,
        "currency": plan.currency,
        "baselines": {"hand_over": plan.hand_over, "likeliest_first": plan.likeliest_first},
        "steps": _steps(plan.steps),
        "causes": [
            {"id": each.id, "share": each.mean, "low": each.low, "high": each.high, "cases": each.cases}
            for each in plan.causes
        ],
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
