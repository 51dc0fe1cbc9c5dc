"""KB732: case in the folder of another year."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from pathlib import PurePosixPath

from kbtools.index.entries import cases
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, today: dt.date) -> Iterator[Breach]:
    """Cases that were seen in another year than their folder says; a folder that is no year is told of already."""
    for case in cases(base):
        path = PurePosixPath(case.path)
        year = path.parts[1]
        # A day of the future is a slip of its own.
        if case.seen is None or case.seen > today or not year.isdecimal() or int(year) == case.seen.year:
            continue
        message = f"The case was seen in {case.seen.year}, and stands in the folder of {year}."
        hint = f"Move it to cases/{case.seen.year}/{path.name}, or correct the day."
        yield Breach(path=case.path, pointer="/seen", message=message, hint=hint)


RULE = Rule(
    code="KB732",
    title="Case of another year",
    severity="warning",
    what="A case whose folder is another year than the one in which it was seen.",
    why="Who looks for it in its year does not find it, and writes it a second time.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="seen: 2026-02-01",
        bad="seen: 2025-02-01",
        good="seen: 2026-02-01",
    ),
    alone="this day",
    check=check,
)
