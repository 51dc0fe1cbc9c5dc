"""KB441: unit by another name."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.model.shared import SHARED_PATH
from kbtools.model.unit_names import symbol
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Units of readings that are spelt otherwise than by their symbol; of a shared check where it is written."""
    for fault in faults(base):
        for each in fault.checks:
            if each.use is None and each.reading is not None:
                yield from _spelt(fault.path, each.reading.at, each.reading.unit)
    for shared in base.checks.values():
        if shared.check.reading is not None:
            yield from _spelt(SHARED_PATH, shared.check.reading.at, shared.check.reading.unit)


def _spelt(path: str, at: str, unit: str | None) -> Iterator[Breach]:
    meant = None if unit is None else symbol(unit)
    if unit is not None and meant is not None and meant != unit:
        message = f'The unit "{short(unit)}" is written "{meant}".'
        yield Breach(path=path, pointer=f"{at}/unit", message=message, hint=f'Write "{meant}".')


RULE = Rule(
    code="KB441",
    title="Unit by another name",
    severity="error",
    what="The unit of a reading by its name (Volts, milliamps) or in other letters (OHM) instead of its symbol.",
    why="Readings of cases are held against it, and two spellings are taken for two units.",
    sample=Sample(
        path="faults/charging/ammeter-at-zero.yml",
        instead_of="unit: V",
        bad="unit: Volts",
        good="unit: V",
    ),
    alone="any day",
    check=check,
)
