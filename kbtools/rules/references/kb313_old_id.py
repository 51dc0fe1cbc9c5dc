"""KB313: old id that is taken."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.index.heirs import claims
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Old ids that a living entry bears, or that two entries claim."""
    for fault in faults(base):
        for index, old in enumerate(fault.formerly):
            pointer, first = f"/formerly/{index}", claims(base)[old][0]
            if old in base.faults:
                message = f'"{old}" is the id of an entry that is there: {base.faults[old].path}.'
                hint = "Take the old id out of this list."
                yield Breach(path=fault.path, pointer=pointer, message=message, hint=hint)
            elif first != fault.id or index != fault.formerly.index(old):
                message, hint = f'"{old}" is claimed by "{first}" too.', "Only one of them can be its heir."
                yield Breach(path=fault.path, pointer=pointer, message=message, hint=hint)


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
