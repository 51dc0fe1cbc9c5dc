"""The checks of a merged draft: the same check once, pointing to the causes of both."""

from __future__ import annotations

import dataclasses
from collections.abc import Hashable, Iterable, Mapping
from typing import Final

from kbtools.merging.each_once import each_once, free_id
from kbtools.model.fault import Check, Fault, Reading

MOST: Final = 12
"""Causes, and checks, that an entry may have."""


def check_ids(first: Fault, second: Fault) -> dict[str, str]:
    """Each check of the second one: the id of the first one's check that says the same, or a new one."""
    same = {_doing(check): check.id for check in first.checks}
    taken = {check.id for check in first.checks}
    found: dict[str, str] = {}
    for check in second.checks:
        found[check.id] = same.get(_doing(check)) or free_id(check.id, taken)
        taken.add(found[check.id])
    return found


def _doing(check: Check) -> Hashable:
    reading = check.reading
    measured = None if reading is None else (reading.place, reading.when, reading.good, reading.unit)
    return ((check.do or check.id).casefold(), (check.expect or "").casefold(), measured)


def checks_of_both(
    first: Fault, second: Fault, causes: Mapping[str, str], ids: Mapping[str, str], notes: list[str]
) -> list[Check]:
    """The first one's checks, then those that only the second one has.

    Args:
        first: the fault whose place the draft takes.
        second: the other one.
        causes: id of a cause of the second one → its id in the draft.
        ids: id of a check of the second one → its id in the draft.
        notes: what is left out is added here, plain text.
    """
    theirs = [_renamed(check, ids[check.id], causes) for check in second.checks]
    by_id = {check.id: check for check in theirs}
    own = [_joined(check, by_id.pop(check.id, None)) for check in first.checks]
    added = [check for check in theirs if check.id in by_id]
    notes += [
        f'Check "{check.id}" of {second.id} is left out: an entry has {MOST} at most.'
        for check in [*own, *added][MOST:]
    ]
    return [*own, *added][:MOST]


def _renamed(check: Check, identity: str, causes: Mapping[str, str]) -> Check:
    def renamed(ids: Iterable[str]) -> tuple[str, ...]:
        return each_once(causes.get(each, each) for each in ids)

    reading = check.reading
    if reading is not None:
        low = renamed(reading.low_points_to)
        high = tuple(each for each in renamed(reading.high_points_to) if each not in low)
        reading = dataclasses.replace(reading, low_points_to=low, high_points_to=high)
    return dataclasses.replace(check, id=identity, points_to=renamed(check.points_to), reading=reading)


def _joined(own: Check, theirs: Check | None) -> Check:
    """The same check in both: it points to the causes of both."""
    if theirs is None:
        return own
    reading = own.reading
    if reading is not None and theirs.reading is not None:
        low = each_once((*reading.low_points_to, *theirs.reading.low_points_to))
        high = tuple(
            each for each in each_once((*reading.high_points_to, *theirs.reading.high_points_to)) if each not in low
        )
        reading = dataclasses.replace(reading, low_points_to=low, high_points_to=high)
    return dataclasses.replace(own, points_to=each_once((*own.points_to, *theirs.points_to)), reading=reading)


def aimed(check: Check, kept: set[str]) -> Check | None:
    """The check without causes that were left out; None where it then points to nothing."""
    reading: Reading | None = check.reading
    if reading is None:
        points = tuple(each for each in check.points_to if each in kept)
        return dataclasses.replace(check, points_to=points) if points or not check.points_to else None
    low = tuple(each for each in reading.low_points_to if each in kept)
    high = tuple(each for each in reading.high_points_to if each in kept)
    if (low, high) == ((), ()) and (reading.low_points_to or reading.high_points_to):
        return None
    return dataclasses.replace(check, reading=dataclasses.replace(reading, low_points_to=low, high_points_to=high))
