"""KB318: id that means something else."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import UNLISTED
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Causes whose id is the word for a cause that is not listed."""
    for fault in faults(base):
        for cause in fault.causes:
            if cause.id == UNLISTED:
                message = f'"{UNLISTED}" is the word for a cause that the entry does not list.'
                hint = "Give this cause an id that says what is broken."
                yield Breach(path=fault.path, pointer=f"{cause.at}/id", message=message, hint=hint)


RULE = Rule(
    code="KB318",
    title="Id that means something else",
    severity="error",
    what="A cause with the id `unlisted`.",
    why="A case that names it could mean this cause or one that nobody has written down.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="checks:\n",
        bad=(
            "  - id: unlisted\n    summary: Worn battery cell\n    fix: {summary: Fit a new battery., skill: "
            "home, labour_hours: 0.3}\nchecks:\n  - {id: rest, do: Let it rest., expect: It holds., points_to: "
            "[unlisted], minutes: 5, skill: home}\n"
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
