"""KB315: replaced by an entry that is withdrawn itself."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Withdrawn entries whose heir is withdrawn too. Those that lead into a circle are KB314's."""
    for fault in base.faults.values():
        gone = fault.withdrawn
        heir = base.faults.get(gone.replaced_by or "") if gone is not None else None
        if gone is None or heir is None or heir.withdrawn is None:
            continue
        last = end(base, heir.id)
        if last is not None:
            message = f'"{heir.id}" is withdrawn too, so a reader who is sent there does not find advice.'
            holds = base.faults[last].withdrawn is None
            hint = f'It leads on to "{last}"; name that.' if holds else "Name an entry that holds, or none."
            yield Breach(path=fault.path, pointer=f"{gone.at}/replaced_by", message=message, hint=hint)


def end(base: KnowledgeBase, start: str) -> str | None:
    """The entry at which a reader arrives who follows `replaced_by`; None if it leads round a circle."""
    seen, at = {start}, start
    while True:
        gone = base.faults[at].withdrawn
        after = gone.replaced_by if gone is not None else None
        if after is None or after not in base.faults:
            return at
        if after in seen:
            return None
        seen.add(after)
        at = after


RULE = Rule(
    code="KB315",
    title="Replaced by a withdrawn entry",
    severity="error",
    what="`replaced_by` that names an entry which is withdrawn itself.",
    why="The reader is sent from one note to the next, and perhaps to none that helps.",
    sample=Sample(
        path="faults/charging/lamp-dim.yml",
        instead_of="",
        bad=(
            "title: Lamp dim\nsystem: charging\ndraft: true\n"
            "withdrawn: {on: 2026-05-01, reason: Folded into another., replaced_by: lamp-glows}\n"
        ),
        good=(
            "title: Lamp dim\nsystem: charging\ndraft: true\n"
            "withdrawn: {on: 2026-05-01, reason: Folded into another., replaced_by: lamp-flickers}\n"
        ),
    ),
    check=check,
)
