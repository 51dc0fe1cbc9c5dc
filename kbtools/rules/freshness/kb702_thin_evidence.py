"""KB702: thin evidence."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.cases import cases_known, counted_naming
from kbtools.index.entries import published
from kbtools.index.safety import critical_faults
from kbtools.model.base import KnowledgeBase
from kbtools.rules.freshness.backing import ENOUGH, HEARSAY, thread_alone
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Published entries that stand on hearsay and few cases, each once."""
    if not cases_known(base):
        return
    cases = counted_naming(base)
    worse = {fault.id for fault in critical_faults(base) if thread_alone(base, fault)}
    for fault in published(base).values():
        if fault.id in worse or not fault.sources or not fault.intact("/sources"):
            continue
        count = len(cases.get(fault.id, ()))
        if count < ENOUGH and all(each.kind in HEARSAY for each in fault.sources):
            known = f"{count} case{'' if count == 1 else 's'} that count{'s' if count == 1 else ''}"
            message = f"Only forum threads or articles stand behind this entry, and {known if count else 'no case'}."
            hint = "Add a source that measured it or answers for it, or reports of cases that were solved."
            yield Breach(path=fault.path, pointer="/sources", message=message, hint=hint, at_key=True)


RULE = Rule(
    code="KB702",
    title="Thin evidence",
    severity="warning",
    what=(
        "A published entry whose sources are forum threads and articles only, with fewer than three cases that count "
        "(solved, and ridden far enough since or verified)."
    ),
    why="It repeats what somebody said; owners should not pay for that until somebody has seen it.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="  - {kind: first-hand, title: Spring teardown}\n",
        bad="  - {kind: forum, title: Lamp flickers in the rain}\n",
        good="  - {kind: forum, title: Lamp flickers in the rain}\n  - {kind: manual, title: Workshop manual}\n",
    ),
    check=check,
)
