"""KB324: entry that names itself."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Entries that are related to themselves, or told apart from themselves."""
    for fault in faults(base):
        for index, identity in enumerate(fault.related if fault.intact("/related") else ()):
            if identity == fault.id:
                hint = "Take it out, or name the other entry that a reader wants next."
                message = "The entry is related to itself."
                yield Breach(path=fault.path, pointer=f"/related/{index}", message=message, hint=hint)
        for row in fault.distinct_from:
            if row.fault == fault.id:
                message = "The entry is told apart from itself."
                hint = "Name the other entry, the one that it is taken for."
                yield Breach(path=fault.path, pointer=f"{row.at}/fault", message=message, hint=hint)


RULE = Rule(
    code="KB324",
    title="Entry that names itself",
    severity="error",
    what="An entry that is related to itself, or that `distinct_from` tells apart from itself.",
    why="The link would lead nowhere; another entry was meant.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="related: [battery-flat]",
        bad="related: [battery-flat, lamp-flickers]",
        good="related: [battery-flat]",
    ),
    alone="any day",
    check=check,
)
