"""KB501: safety-critical fault without a caution."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.cautions import cautions_of_check, cautions_of_fault, cautions_of_fix
from kbtools.index.entries import published
from kbtools.index.safety import critical_system
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault
from kbtools.rules.rule import Breach, Rule
from kbtools.rules.samples import brakes


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Published faults of a safety-critical system where some work stands without any caution, its own or inherited."""
    if base.unsure & {"system", "component", "access job"}:
        return
    for fault in published(base).values():
        system = critical_system(base, fault)
        if system is None or fault.cautions or not fault.intact("/cautions"):
            continue
        if not cautions_of_fault(base, fault) and not _each_work_has_its_own(base, fault):
            message = f'"{system.name}" is safety-critical, and this entry has no caution.'
            hint = (
                "Give the system its caution in systems.yml, where it holds for all its entries: "
                "`cautions: [brake-work]`. What holds for this entry alone is named here."
            )
            yield Breach(path=fault.path, pointer="/cautions", message=message, hint=hint)


def _each_work_has_its_own(base: KnowledgeBase, fault: Fault) -> bool:
    """Whether each fix and check is warned of, by itself or by what it touches."""
    fixes = (
        bool(cause.fix.cautions or cautions_of_fix(base, fault, cause)) or not fault.intact(f"{cause.fix.at}/cautions")
        for cause in fault.causes
        if cause.fix is not None
    )
    checks = (
        bool(each.cautions or cautions_of_check(base, fault, each)) or not fault.intact(f"{each.at}/cautions")
        for each in fault.checks
    )
    return bool(fault.work) and all(fixes) and all(checks)


RULE = Rule(
    code="KB501",
    title="Safety-critical fault without a caution",
    severity="error",
    what=(
        "A published entry of a system that is `safety_critical`, or stands below one, for which no caution holds: "
        "neither it nor its system names one, and not each of its fixes and checks has one, its own or that of the "
        "component or the access job that it touches."
    ),
    why="Who works on brakes or steering must read what can go wrong before the first bolt, not after.",
    sample=brakes("cautions: [battery-gas]\n", ""),
    alone="any day",
    check=check,
)
