"""The check plan: which check or fix next, so that the bike is expected to be whole at the least cost.

`problem_of` (in `problem.py`) turns a fault into a `Problem`; `plan_of(problem, owner)` solves it for an owner.
Exactly one cause is taken to be present, listed or not. `core/plan.js` does the same with `problem_record`.
"""

from __future__ import annotations

from kbtools.checkplan.obstacles import Obstacle, obstacles
from kbtools.checkplan.owner import Owner, allowed_results
from kbtools.checkplan.record import plan_record, whole_record
from kbtools.checkplan.steps import Plan, Step, plan_of

__all__ = [
    "Obstacle",
    "Owner",
    "Plan",
    "Step",
    "allowed_results",
    "obstacles",
    "plan_of",
    "plan_record",
    "whole_record",
]
