"""KB501: safety-critical fault without a caution."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import published
from kbtools.index.safety import critical_system
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault
from kbtools.rules.rule import Breach, Rule
from kbtools.rules.samples import brakes


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Published faults of a safety-critical system where some work stands without any caution."""
    for fault in published(base).values():
        system = critical_system(base, fault)
        if system is None or fault.cautions or not fault.intact("/cautions"):
            continue
        if not _each_work_has_its_own(fault):
            message = f'"{system.name}" is safety-critical, and this entry has no caution.'
            hint = "Name the cautions from cautions.yml that hold for all work on it: `cautions: [brake-work]`."
            yield Breach(path=fault.path, pointer="/cautions", message=message, hint=hint)


def _each_work_has_its_own(fault: Fault) -> bool:
    return bool(fault.work) and all(each.cautions or not fault.intact(f"{each.at}/cautions") for each in fault.work)


RULE = Rule(
    code="KB501",
    title="Safety-critical fault without a caution",
    severity="error",
    what=(
        "A published entry of a system that is `safety_critical`, or stands below one, that names no caution, while "
        "not each of its fixes and checks names one of its own."
    ),
    why="Who works on brakes or steering must read what can go wrong before the first bolt, not after.",
    sample=brakes("cautions: [battery-gas]\n", ""),
    check=check,
)
