"""KB433: access that allows what it needs forbids."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.access import forbids, most_allowed
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Access jobs that allow more than a job which they need."""
    for job in base.access.values():
        if job.allows is not None and forbids(base, job.needs, job.allows):
            most = most_allowed(job.needs, base)
            message = f'"{short(job.name)}" is said to allow `{job.allows}`, but what it needs allows `{most}` at most.'
            hint = f"Write `allows: {most}`, or less."
            yield Breach(path="systems.yml", pointer=f"{job.at}/allows", message=message, hint=hint)


RULE = Rule(
    code="KB433",
    title="Access that allows what it needs forbids",
    severity="error",
    what="An access job whose `allows` is more than that of a job which it needs, however many jobs away.",
    why="Both are open together, so the stricter one holds, and whoever reads only this row is misled.",
    sample=Sample(
        path="systems.yml",
        instead_of="allows: off}",
        bad="allows: off}\n  - {id: tray-out, name: Tray out, minutes: 5, needs: [battery-out], allows: running}",
        good="allows: off}\n  - {id: tray-out, name: Tray out, minutes: 5, needs: [battery-out], allows: off}",
    ),
    check=check,
)
