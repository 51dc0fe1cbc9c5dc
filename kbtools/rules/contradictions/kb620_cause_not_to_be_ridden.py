"""KB620: cause that must not be ridden in a fault that may."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import published
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Causes with do-not-ride in published faults that are milder than ride-to-workshop."""
    for fault in published(base).values():
        for cause in fault.causes if fault.ride_level in {"ride-with-care", "no-restriction"} else ():
            advice = cause.ride_advice
            if advice is not None and advice.level == "do-not-ride":
                message = (
                    f'With "{short(cause.id)}" it must not be ridden, yet the fault itself says `{fault.ride_level}`.'
                )
                hint = "Nobody knows the cause at first: write `ride-to-workshop` or stricter for the fault."
                yield Breach(path=fault.path, pointer=f"{advice.at}/level", message=message, hint=hint)


_ENTRY = """\
title: Rattles on a cold morning
system: charging
applies_to: [{{model: wren-400, years: 2003-2012}}]
ride_advice: {{level: {}, why: "Most of these are harmless, and one is not."}}
causes:
  - id: loose-magnet
    summary: Magnets come off the rotor
    ride_advice: {{level: do-not-ride, why: The rotor seizes.}}
    fix: {{summary: Fit another rotor., skill: workshop, labour_hours: 1}}
sources: [{{kind: first-hand, title: Seen once}}]
reviewed: {{on: 2026-03-14, by: curator-1}}
"""

RULE = Rule(
    code="KB620",
    title="Cause that must not be ridden in a fault that may",
    severity="warning",
    what="A cause with the ride advice do-not-ride in a published entry that is milder than ride-to-workshop.",
    why="A rider learns the cause last, and rides until then.",
    sample=Sample(
        path="faults/charging/rattles-cold.yml",
        instead_of="",
        bad=_ENTRY.format("ride-with-care"),
        good=_ENTRY.format("ride-to-workshop"),
    ),
    alone="any day",
    check=check,
)
