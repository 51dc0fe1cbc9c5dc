"""KB630: reading that contradicts a shared one."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping

from kbtools.index.checks import own_checks
from kbtools.index.entries import living
from kbtools.model.base import KnowledgeBase
from kbtools.model.check import Reading
from kbtools.model.money import Range, show_number
from kbtools.model.shared import SHARED_PATH, SharedCheck
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short

Place = tuple[str, str, str]


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Readings of entries with another good range than a shared one at the same place, in the same state and unit."""
    shared = _by_place(base)
    for fault in living(base).values():
        for each in own_checks(fault):
            reading = each.reading
            if reading is None or reading.good is None:
                continue
            other = shared.get(_place(reading))
            known = () if other is None else tuple(_ranges(other))
            if other is not None and reading.good not in known:
                message = (
                    f'{_shown(reading.good)} is good here; the shared check "{short(other.id)}" measures the same, '
                    f"and there {_shown(known[0])} is."
                )
                hint = f"One of them is wrong, or they differ by machine: correct it, or `use: {short(other.id)}`."
                pointer = f"{reading.at}/good"
                yield Breach(path=fault.path, pointer=pointer, message=message, hint=hint, beside=SHARED_PATH)


def _by_place(base: KnowledgeBase) -> Mapping[Place | None, SharedCheck]:
    """The shared checks that measure, the first at each place."""
    found: dict[Place | None, SharedCheck] = {}
    for each in base.checks.values():
        place = _place(each.check.reading)
        if place is not None and each.whole:
            found.setdefault(place, each)
    return found


def _ranges(shared: SharedCheck) -> Iterator[Range]:
    """What is good by a shared check: first anywhere, then on single machines."""
    if shared.check.reading is not None and shared.check.reading.good is not None:
        yield shared.check.reading.good
    yield from (row.good for row in shared.check.good_for)


def _place(reading: Reading | None) -> Place | None:
    """What tells that two readings are of the same: place, state and unit, whatever their capitals and spaces."""
    if reading is None or reading.place is None or reading.unit is None or reading.good is None:
        return None
    return (_plain(reading.place), _plain(reading.when or ""), reading.unit.strip())


def _plain(text: str) -> str:
    return " ".join(text.casefold().split()).rstrip(".")


def _shown(good: Range) -> str:
    return f"{show_number(good.low)} to {show_number(good.high)}"


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
    alone="any day",
    check=check,
)
