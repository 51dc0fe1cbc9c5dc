"""KB412: cause on both sides of a reading."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Causes that both a low and a high reading point to."""
    for fault in faults(base):
        for reading in (each.reading for each in fault.checks if each.reading is not None):
            low = set(reading.low_points_to)
            for index, cause in enumerate(reading.high_points_to):
                if cause in low:
                    message = f'Both a low and a high reading point to "{short(cause)}".'
                    hint = "Leave it on one side, or make two checks or two causes of it."
                    pointer = f"{reading.at}/high_points_to/{index}"
                    yield Breach(path=fault.path, pointer=pointer, message=message, hint=hint)


RULE = Rule(
    code="KB412",
    title="Cause on both sides of a reading",
    severity="error",
    what="A cause that stands both in `low_points_to` and in `high_points_to` of one reading.",
    why="A low and a high reading must tell causes apart; with one in both the plan cannot be computed.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="checks:\n",
        bad=(
            "checks:\n  - id: measure\n    do: Measure at the battery.\n    reading: {good: [13.5, 14.8], unit: V, "
            "low_points_to: [corroded-plug], high_points_to: [corroded-plug]}\n    minutes: 5\n    skill: home\n"
        ),
        good=(
            "checks:\n  - id: measure\n    do: Measure at the battery.\n    reading: {good: [13.5, 14.8], unit: V, "
            "low_points_to: [corroded-plug]}\n    minutes: 5\n    skill: home\n"
        ),
    ),
    alone="any day",
    check=check,
)
