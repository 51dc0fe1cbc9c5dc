"""KB414: trial of a fix that needs proof."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.index.safety import critical_work
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Trial fixes that are not cheap and safe enough to do without proof."""
    for fault in faults(base):
        for cause in fault.causes:
            fix = cause.fix
            if fix is None or not fix.trial:
                continue
            if fix.skill not in {None, "home"}:
                message = f"A fix that takes {fix.skill} skill cannot be a trial."
            elif critical_work(base, fault, cause):
                message = "Work on a safety-critical system cannot be a trial."
            else:
                continue
            hint = "Take `trial` out, and add a check that shows the cause."
            yield Breach(path=fault.path, pointer=f"{fix.at}/trial", message=message, hint=hint)


RULE = Rule(
    code="KB414",
    title="Trial of a fix that needs proof",
    severity="error",
    what="`trial: true` on a fix that takes more than home skill, or that is work on a safety-critical system.",
    why="A trial fix is done without knowing the cause; on brakes or by unpractised hands that can hurt someone.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="      skill: home\n      parts",
        bad="      skill: experienced\n      trial: true\n      parts",
        good="      skill: home\n      trial: true\n      parts",
    ),
    alone="any day",
    check=check,
)
