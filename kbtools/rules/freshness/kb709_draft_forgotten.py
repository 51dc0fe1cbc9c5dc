"""KB709: draft that is complete."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Drafts with all that a published entry must have, a review among it."""
    for fault in faults(base):
        if fault.draft and fault.withdrawn is None and not fault.damaged and _whole(fault):
            message = "This draft has everything that a published entry needs, its review too."
            hint = "Take out the line `draft: true` to publish it, or `reviewed` until somebody reads it again."
            yield Breach(path=fault.path, pointer="/draft", message=message, hint=hint, at_key=True)


def _whole(fault: Fault) -> bool:
    advice = fault.ride_advice
    causes = all(each.fix is not None and each.fix.labour_hours is not None for each in fault.causes)
    checks = all(each.reading is not None or (each.expect is not None and each.points_to) for each in fault.checks)
    return (
        fault.reviewed is not None
        and bool(fault.applies_to and fault.causes and fault.sources)
        and advice is not None
        and advice.level is not None
        and advice.why is not None
        and causes
        and checks
    )


RULE = Rule(
    code="KB709",
    title="Draft that is complete",
    severity="warning",
    of_sound_files=True,
    what="A draft that says all that a published entry must say, and has been reviewed.",
    why="The line `draft: true` was probably forgotten: nobody can read the entry.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="related: [battery-flat]",
        bad="related: [battery-flat]\ndraft: true",
        good="related: [battery-flat]",
    ),
    alone="any day",
    check=check,
)
