"""KB408: more than 40 labour hours."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.model.money import Range, show_number
from kbtools.rules.rule import Breach, Rule, Sample

_MOST = 40
"""Hours."""


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Fixes that would take more than a working week."""
    for fault in faults(base):
        for fix in (cause.fix for cause in fault.causes if cause.fix is not None):
            hours = fix.labour_hours
            if hours is not None and hours.low <= hours.high and hours.high > _MOST:
                pointer = f"{fix.at}/labour_hours" + ("" if hours.low == hours.high else "/1")
                message = f"{show_number(hours.high)} labour hours are more than {_MOST}."
                hint = f"{_as_minutes(hours)}A longer job is more than one fix."
                yield Breach(path=fault.path, pointer=pointer, message=message, hint=hint)


def _as_minutes(hours: Range) -> str:
    """What the figures would be, if they are minutes; empty where they cannot be."""
    if hours.high > _MOST * 60:
        return ""
    low, high = (f"{round(each / 60, 2):g}" for each in (hours.low, hours.high))
    write = low if low == high else f"[{low}, {high}]"
    return f'Are these minutes? Then write "{write}": labour is in hours. '


RULE = Rule(
    code="KB408",
    title="More than 40 labour hours",
    severity="error",
    what="A fix of more than 40 labour hours.",
    why="No workshop books a week for one fix; most often the number is in minutes.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="labour_hours: [0.5, 1]",
        bad="labour_hours: [30, 60]",
        good="labour_hours: [0.5, 1]",
    ),
    alone="any day",
    check=check,
)
