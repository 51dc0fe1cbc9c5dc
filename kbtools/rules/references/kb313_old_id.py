"""KB313: old id that is taken."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Old ids that a living entry bears, or that two entries claim."""
    claimed: dict[str, str] = {}
    for fault in base.faults.values():
        for index, old in enumerate(fault.formerly):
            pointer = f"/formerly/{index}"
            if old in base.faults:
                message = f'"{old}" is the id of an entry that is there: {base.faults[old].path}.'
                yield Breach(
                    path=fault.path, pointer=pointer, message=message, hint="Take the old id out of this list."
                )
            elif old in claimed:
                message = f'"{old}" is claimed by "{claimed[old]}" too.'
                yield Breach(
                    path=fault.path, pointer=pointer, message=message, hint="Only one of them can be its heir."
                )
            claimed.setdefault(old, fault.id)


RULE = Rule(
    code="KB313",
    title="Old id that is taken",
    severity="error",
    what="An id in `formerly` that another entry bears, or that two entries claim.",
    why="The old address can lead to one page only.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="related: [battery-flat]",
        bad="formerly: [battery-flat]",
        good="formerly: [lamp-flickers-in-rain]",
    ),
    check=check,
)
