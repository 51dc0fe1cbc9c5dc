"""The ride advice of a merged draft: the stricter word, and both reasons."""

from __future__ import annotations

import dataclasses
from typing import TypeVar

from kbtools.merging.each_once import each_once
from kbtools.merging.rows import filled
from kbtools.model.fault import Cause, CodeRow
from kbtools.model.ride_advice import RIDE_LEVELS, RideAdvice

RowT = TypeVar("RowT", Cause, CodeRow)


def advice_of_both(first: RideAdvice | None, second: RideAdvice | None) -> RideAdvice | None:
    """The stricter level, the lower limits; both reasons, the stricter one's first."""
    if first is None or second is None:
        return first or second
    strict, mild = sorted((first, second), key=lambda advice: RIDE_LEVELS.index(advice.level))
    reasons = each_once(why for why in (strict.why, mild.why) if why)
    speeds = [each.max_speed for each in (strict, mild) if each.max_speed is not None]
    ways = [each.max_distance for each in (strict, mild) if each.max_distance is not None]
    return dataclasses.replace(
        strict,
        why=" ".join(reasons) or None,
        stop_if=each_once((*strict.stop_if, *mild.stop_if), str.casefold),
        max_speed=min(speeds, key=lambda speed: speed.kmh, default=None),
        max_distance=min(ways, key=lambda way: way.km, default=None),
    )


def joined_code(own: CodeRow, theirs: CodeRow) -> CodeRow:
    """One row of two about the same code."""
    return dataclasses.replace(filled(own, theirs), ride_advice=advice_of_both(own.ride_advice, theirs.ride_advice))


def no_milder(row: RowT, whole: RideAdvice | None) -> RowT:
    """The row without an advice of its own that the draft's is stricter than by now."""
    own = row.ride_advice
    if own is None or whole is None or RIDE_LEVELS.index(own.level) <= RIDE_LEVELS.index(whole.level):
        return row
    return dataclasses.replace(row, ride_advice=None)
