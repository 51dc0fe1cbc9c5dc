"""KB415: date in the future."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import cases, faults
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample

_Dated = Iterator[tuple[str, str, dt.date | None]]
"""File, JSON pointer, day."""


def check(base: KnowledgeBase, today: dt.date) -> Iterator[Breach]:
    """Days after today, and years after this one."""
    hint = f"Today is {today.isoformat()}; correct the date."
    for path, pointer, day in _days(base):
        if day is not None and day > today:
            message = f"{day.isoformat()} is in the future."
            yield Breach(path=path, pointer=pointer, message=message, hint=hint)
    for fault in faults(base):
        for source in fault.sources:
            if source.year is not None and source.year > today.year:
                message = f"The year {source.year} is in the future."
                yield Breach(path=fault.path, pointer=f"{source.at}/year", message=message, hint=hint)


def _days(base: KnowledgeBase) -> _Dated:
    for fault in faults(base):
        if fault.reviewed is not None:
            yield fault.path, f"{fault.reviewed.at}/on", fault.reviewed.on
        if fault.withdrawn is not None:
            yield fault.path, f"{fault.withdrawn.at}/on", fault.withdrawn.on
        for source in fault.sources:
            yield fault.path, f"{source.at}/seen_on", source.seen_on
    for case in cases(base):
        yield case.path, "/seen", case.seen
        if case.cleared is not None:
            yield case.path, "/cleared/on", case.cleared.on


RULE = Rule(
    code="KB415",
    title="Date in the future",
    severity="error",
    what=(
        "A day of a review, a withdrawal, a link that was read, a case or a clearing that is after today, or "
        "a source of a later year."
    ),
    why="What has not happened yet cannot be reported; most often the year is mistyped.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="seen: 2026-02-01",
        bad="seen: 2062-02-01",
        good="seen: 2026-02-01",
    ),
    alone="this day",
    check=check,
)
