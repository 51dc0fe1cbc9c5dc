"""KB542: check that is trusted to find all where a miss can hurt somebody."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.cautions import cautions_of_check, hazards
from kbtools.index.entries import faults
from kbtools.index.safety import critical_system
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule
from kbtools.rules.samples import brakes


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Checks with `finds: 1` in a safety-critical system, or where petrol is about."""
    for fault in faults(base):
        system = critical_system(base, fault)
        for each in fault.checks:
            if not each.finds_said or each.finds < 1:
                continue
            if system is not None:
                message = f'"{system.name}" is safety-critical, and this check is said to find every such cause.'
            elif "fuel" in hazards(cautions_of_check(base, fault, each)):
                message = "Petrol is about, and this check is said to find every such cause."
            else:
                continue
            hint = "Write how many of ten bikes it finds, such as `finds: 0.95`, or leave the key out."
            yield Breach(path=fault.path, pointer=f"{each.at}/finds", message=message, hint=hint)


RULE = Rule(
    code="KB542",
    title="Check that is trusted to find all",
    severity="error",
    what=(
        "A check with `finds: 1` in an entry of a safety-critical system, or for which a caution with `hazard: fuel` "
        "holds: its own, or one of the system, the components or the access jobs that it touches."
    ),
    why="One good result would rule out for good what can hurt somebody.",
    sample=brakes("    before_riding: true\n", "    before_riding: true\n    finds: 1\n"),
    alone="any day",
    check=check,
)
