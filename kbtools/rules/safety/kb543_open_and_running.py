"""KB543: engine that runs without its tank, a wheel, the swing-arm or the frame."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator

from kbtools.index.access import forbids, most_allowed
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short

_OUT = re.compile(r"\b(tank|wheels?|swing[- ]?arm|engine) (off|out|removed)\b", re.IGNORECASE)
"""How an access job is called in which one of them is out: the state reached, as the format asks for it."""


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Access jobs named as such after which the engine may still run."""
    for job in base.access.values():
        if _OUT.search(job.name) and not forbids(base, (job.id,), "running"):
            most = most_allowed((job.id,), base)
            message = f'"{short(job.name)}" allows `{most}`; with that out nobody runs an engine, and nobody rides.'
            hint = "Write `allows: off`, or `allows: key-on` or `cranking` where that is safe."
            pointer = f"{job.at}/name" if job.allows is None else f"{job.at}/allows"
            yield Breach(path="systems.yml", pointer=pointer, message=message, hint=hint)


RULE = Rule(
    code="KB543",
    title="Running with the tank, a wheel, the swing-arm or the engine out",
    severity="error",
    what=(
        "An access job whose name says that the tank, a wheel, the swing-arm or the engine is off or out, and whose "
        "`allows` does not forbid to run the engine. Without `allows` nothing is forbidden."
    ),
    why="Petrol runs onto a hot engine, or the bike falls: the plan goes by `allows`, and so do the checks of entries.",
    sample=Sample(
        path="systems.yml",
        instead_of="allows: off}",
        bad="allows: off}\n  - {id: tank-off, name: Fuel tank off, minutes: 30}",
        good="allows: off}\n  - {id: tank-off, name: Fuel tank off, minutes: 30, allows: key-on}",
    ),
    check=check,
)
