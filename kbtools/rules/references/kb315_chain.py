"""KB315: replaced by an entry that is withdrawn itself."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.heirs import end_of, replaced_by
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Withdrawn entries whose heir is withdrawn too. Those that lead into a circle are KB314's."""
    for old, new in replaced_by(base).items():
        fault, heir = base.faults[old], base.faults.get(new)
        gone = fault.withdrawn
        if gone is None or heir is None or heir.withdrawn is None:
            continue
        last = end_of(base, heir.id)
        if last is not None:
            message = f'"{heir.id}" is withdrawn too, so a reader who is sent there does not find advice.'
            holds = base.faults[last].withdrawn is None
            hint = f'It leads on to "{last}"; name that.' if holds else "Name an entry that holds, or none."
            yield Breach(path=fault.path, pointer=f"{gone.at}/replaced_by", message=message, hint=hint)


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
