"""KB407: fix that takes nothing."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Fixes without parts and without hours."""
    for fault in faults(base):
        for fix in (cause.fix for cause in fault.causes if cause.fix is not None and not fault.draft):
            hours = fix.labour_hours
            free = hours is not None and hours.low == hours.high == 0 and not fix.parts
            if free and fault.intact(f"{fix.at}/parts"):
                message = "This fix takes no parts and no time."
                hint = "Give the hours that it takes from closed bike to closed bike, and the parts."
                yield Breach(path=fault.path, pointer=f"{fix.at}/labour_hours", message=message, hint=hint)


RULE = Rule(
    code="KB407",
    title="Fix that takes nothing",
    severity="error",
    what="A fix without parts and with no labour hours.",
    why="It would count as free, and the cheapest plan would always begin with it.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="      parts: [{name: Terminal kit, price: [8, 20]}]\n      labour_hours: [0.5, 1]\n",
        bad="      labour_hours: 0\n",
        good="      labour_hours: [0.1, 0.2]\n",
    ),
    alone="any day",
    check=check,
)
