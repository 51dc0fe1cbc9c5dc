"""KB540: safety-critical fault that nobody may ride, and nothing to be done before riding again."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import published
from kbtools.index.safety import critical_system
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule
from kbtools.rules.samples import brakes


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Published do-not-ride faults of a safety-critical system without a check that comes before riding."""
    for fault in published(base).values():
        system = critical_system(base, fault)
        if system is None or fault.ride_level != "do-not-ride" or not fault.intact("/checks"):
            continue
        if not any(check.before_riding for check in fault.checks):
            message = (
                f'"{system.name}" is safety-critical and this must not be ridden, yet no check comes before riding.'
            )
            hint = (
                "Write `before_riding: true` at the check that shows, whatever was mended, that the bike may be ridden "
                "again."
            )
            yield Breach(path=fault.path, pointer="/ride_advice/level", message=message, hint=hint)


RULE = Rule(
    code="KB540",
    title="Nothing to be done before riding again",
    severity="error",
    what="A published do-not-ride entry of a safety-critical system without a check that has `before_riding: true`.",
    why="The cause that was found need not be the only one. Somebody must look once more before the bike moves.",
    sample=brakes("    before_riding: true\n", ""),
    alone="any day",
    check=check,
)
