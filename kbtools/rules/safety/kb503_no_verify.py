"""KB503: safety-critical fix without verify."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import published
from kbtools.index.safety import critical_work
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule
from kbtools.rules.samples import brakes


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Fixes on a safety-critical system, in published faults, that do not say how to see that they worked."""
    for fault in published(base).values():
        for cause in fault.causes:
            fix = cause.fix
            if fix is None or fix.verify is not None or not fault.intact(f"{fix.at}/verify"):
                continue
            if critical_work(base, fault, cause):
                message = "This is work on a safety-critical system, and nothing says how to see that it has worked."
                hint = (
                    "Add `verify: {do: …, expect: …}`: what to try before the first ride, and what a sound bike shows."
                )
                yield Breach(path=fault.path, pointer=f"{fix.at}/verify", message=message, hint=hint)


RULE = Rule(
    code="KB503",
    title="Safety-critical fix without verify",
    severity="error",
    what=(
        "A fix in a published entry, without `verify`, where the entry's system or that of the cause's component is "
        "`safety_critical` or stands below one that is."
    ),
    why="After work on brakes or steering the first proof must not be the first bend.",
    sample=brakes("      verify: {do: Pull the lever for a minute., expect: It stays where it is.}\n", ""),
    alone="any day",
    check=check,
)
