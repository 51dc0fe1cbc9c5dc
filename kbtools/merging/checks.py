"""The checks of a merged draft: the same check once, pointing to the causes of both."""

from __future__ import annotations

import dataclasses
from collections.abc import Set as AbstractSet

from kbtools.merging.each_once import each_once
from kbtools.merging.rows import filled, rows_of_both
from kbtools.model.check import Check, Reading, Use
from kbtools.model.fault import Fault


def checks_of_both(first: Fault, theirs: Fault) -> tuple[Check, ...]:
    """The first one's checks, then those that only the second one has.

    Args:
        first: the fault whose place the draft takes.
        theirs: the other one, its causes and checks with the ids that they have in the draft.
    """
    return rows_of_both(first.checks, theirs.checks, _joined)


def _joined(own: Check, theirs: Check) -> Check:
    """The same check in both: it points to the causes of both, and takes the care of both."""
    reading = own.reading
    if reading is not None and theirs.reading is not None:
        low = each_once((*reading.low_points_to, *theirs.reading.low_points_to))
        high = each_once((*reading.high_points_to, *theirs.reading.high_points_to))
        reading = _aimed_reading(reading, low, high)
    return dataclasses.replace(
        filled(own, theirs),
        points_to=each_once((*own.points_to, *theirs.points_to)),
        reading=reading,
        finds=own.finds if own.finds_said else theirs.finds,
        finds_said=own.finds_said or theirs.finds_said,
        before_riding=own.before_riding or theirs.before_riding,
        cautions=each_once((*own.cautions, *theirs.cautions)),
        pictures=each_once((*own.pictures, *theirs.pictures), lambda picture: picture.file),
        use=_one_use(own.use, theirs.use),
    )


def _one_use(own: Use | None, theirs: Use | None) -> Use | None:
    """Where only one of two checks of an id is shared, the first one's word stands."""
    if own is None or theirs is None:
        return own
    return dataclasses.replace(
        own,
        finds_said=own.finds_said or theirs.finds_said,
        before_riding=own.before_riding or theirs.before_riding,
    )


def _aimed_reading(reading: Reading, low: tuple[str, ...], high: tuple[str, ...]) -> Reading:
    """A cause stands on one side only."""
    return dataclasses.replace(
        reading, low_points_to=low, high_points_to=tuple(each for each in high if each not in low)
    )


def aimed(check: Check, kept: AbstractSet[str]) -> Check | None:
    """The check without causes that were left out; None where it then points to nothing."""
    reading = check.reading
    if reading is None:
        points = tuple(each for each in check.points_to if each in kept)
        return dataclasses.replace(check, points_to=points) if points or not check.points_to else None
    low = tuple(each for each in reading.low_points_to if each in kept)
    high = tuple(each for each in reading.high_points_to if each in kept)
    if (low, high) == ((), ()) and (reading.low_points_to or reading.high_points_to):
        return None
    return dataclasses.replace(check, reading=_aimed_reading(reading, low, high))
