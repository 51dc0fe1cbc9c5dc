"""KB409: shares for some causes only."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Entries in which some causes have a share and others have none."""
    for fault in faults(base):
        without = [cause for cause in fault.causes if cause.share is None and fault.intact(f"{cause.at}/share")]
        given = sum(cause.share is not None for cause in fault.causes)
        if without and given and not fault.draft:
            message = (
                f'The cause "{short(without[0].id)}" has no share; {given} of {len(fault.causes)} causes have one.'
            )
            hint = "Give every cause a share (often, sometimes, rarely, or a weight), or none of them."
            yield Breach(path=fault.path, pointer=without[0].at, message=message, hint=hint)


RULE = Rule(
    code="KB409",
    title="Shares for some causes only",
    severity="error",
    what="An entry that gives a `share` for some of its causes and none for others.",
    why="How likely the others are could only be guessed.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="checks:\n",
        bad=(
            "  - id: worn-cell\n    summary: Worn battery cell\n    share: rarely\n    fix: {summary: Fit a new "
            "battery., skill: home, labour_hours: 0.3}\nchecks:\n  - {id: rest, do: Let it rest., expect: It "
            "holds., points_to: [worn-cell], minutes: 5, skill: home}\n"
        ),
        good=(
            "  - id: worn-cell\n    summary: Worn battery cell\n    fix: {summary: Fit a new battery., skill: "
            "home, labour_hours: 0.3}\nchecks:\n  - {id: rest, do: Let it rest., expect: It holds., points_to: "
            "[worn-cell], minutes: 5, skill: home}\n"
        ),
    ),
    alone="any day",
    check=check,
)
