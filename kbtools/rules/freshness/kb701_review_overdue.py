"""KB701: review overdue."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import published
from kbtools.index.reviews import overdue
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, today: dt.date) -> Iterator[Breach]:
    """Published entries whose last review is longer ago than the club allows."""
    if base.club is None:
        return
    for fault in published(base).values():
        if fault.reviewed is not None and overdue(fault, base.club, today):
            months = base.club.review_after_months
            message = f"The last review was on {fault.reviewed.on.isoformat()}, more than {months} months ago."
            hint = "Read the entry against what the club knows today, then set the day of the review."
            yield Breach(path=fault.path, pointer=f"{fault.reviewed.at}/on", message=message, hint=hint)


RULE = Rule(
    code="KB701",
    title="Review overdue",
    severity="warning",
    what="A published entry that nobody has reviewed for longer than `review_after_months` of club.yml.",
    why="Prices, recalls and what the club knows move on, and owners take what they read for today's.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="reviewed: {on: 2026-03-14",
        bad="reviewed: {on: 2024-03-14",
        good="reviewed: {on: 2026-03-14",
    ),
    alone="this day",
    check=check,
)
