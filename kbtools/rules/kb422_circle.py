"""KB422: entries that replace each other in a circle."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.rules.meaning import short
from kbtools.rules.rule import Found, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Found]:
    """Circles of replaced entries, each once, at its first member."""
    after = {
        fault.id: fault.withdrawn.replaced_by
        for fault in base.faults.values()
        if fault.withdrawn is not None and fault.withdrawn.replaced_by is not None
    }
    done: set[str] = set()
    for start in after:
        walked: dict[str, None] = {}
        at: str | None = start
        while at in after and at not in done:
            done.add(at)
            walked[at] = None
            at = after[at]
        if at in walked:
            yield _found(base, list(walked)[list(walked).index(at) :])


def _found(base: KnowledgeBase, circle: list[str]) -> Found:
    first = base.faults[min(circle, key=lambda each: base.faults[each].path)]
    start = circle.index(first.id)
    way = " → ".join(short(each) for each in (*circle[start:], *circle[:start], first.id)[:12])
    pointer = f"{first.withdrawn.at if first.withdrawn is not None else ''}/replaced_by"
    hint = "Let the last of them name an entry that holds, or none."
    return Found(path=first.path, pointer=pointer, message=f"Replaced in a circle: {way}.", hint=hint)


RULE = Rule(
    code="KB422",
    title="Replaced in a circle",
    severity="error",
    what="Withdrawn entries whose `replaced_by` leads back to where it began.",
    why="A reader who follows it never arrives at an entry that holds.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="related: [battery-flat]",
        bad="withdrawn: {on: 2026-05-01, reason: Folded into another entry., replaced_by: lamp-flickers}",
        good="withdrawn: {on: 2026-05-01, reason: Folded into another entry., replaced_by: battery-flat}",
    ),
    check=check,
)
