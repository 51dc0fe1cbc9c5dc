"""KB630: reading that contradicts a shared one."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.checks import own_checks
from kbtools.index.entries import living
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Reading
from kbtools.model.money import Range, show_number
from kbtools.model.shared import SHARED_PATH
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short

Place = tuple[str, str, str]


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Readings of entries with another good range than a shared one at the same place, in the same state and unit."""
    shared = {}
    for row in base.checks.values():
        place = _place(row.check.reading)
        if place is not None and row.whole:
            shared.setdefault(place, row)
    for fault in living(base).values():
        for each in own_checks(fault):
            place = _place(each.reading)
            other = shared.get(place) if place is not None else None
            if other is None or each.reading is None or each.reading.good is None:
                continue
            ranges = [other.check.reading.good, *(row.good for row in other.check.good_for)] if other.check.reading else []
            if each.reading.good not in ranges and ranges[0] is not None:
                message = (
                    f"{_shown(each.reading.good)} is good here; the shared check \"{short(other.id)}\" measures the same, "
                    f"and there {_shown(ranges[0])} is."
                )
                hint = f"One of them is wrong, or they differ by machine: correct it, or `use: {short(other.id)}`."
                pointer = f"{each.reading.at}/good"
                yield Breach(path=fault.path, pointer=pointer, message=message, hint=hint, beside=SHARED_PATH)


def _place(reading: Reading | None) -> Place | None:
    """What tells that two readings are of the same: place, state and unit, whatever their capitals and spaces."""
    if reading is None or reading.place is None or reading.unit is None or reading.good is None:
        return None
    return (_plain(reading.place), _plain(reading.when or ""), reading.unit.strip())


def _plain(text: str) -> str:
    return " ".join(text.casefold().split()).rstrip(".")


def _shown(good: Range | None) -> str:
    return "" if good is None else f"{show_number(good.low)} to {show_number(good.high)}"


RULE = Rule(
    code="KB630",
    title="Reading that contradicts a shared one",
    severity="warning",
    what=(
        "A check of an entry with a reading at the same place, in the same state and unit as a shared check, and "
        "another good range than that gives for any machine."
    ),
    why="One bike would be sound on one page and broken on the other.",
    sample=Sample(
        path="faults/charging/battery-flat.yml",
        instead_of="checks: [{use: battery-rest}]\n",
        bad=(
            "checks:\n  - {use: battery-rest}\n  - id: after-a-night\n    do: Measure.\n"
            "    reading: {at: Battery posts, when: at rest, good: [12.2, 12.9], unit: V}\n"
        ),
        good=(
            "checks:\n  - {use: battery-rest}\n  - id: after-a-night\n    do: Measure.\n"
            "    reading: {at: Battery posts, when: after a night, good: [12.2, 12.9], unit: V}\n"
        ),
    ),
    check=check,
)
