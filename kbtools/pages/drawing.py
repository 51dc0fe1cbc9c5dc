"""Drawings as plain numbers: how long each bar is and where each mark stands, in hundredths of the width.

The templates turn them into inline SVG whose width is 100 and which is stretched to the page. Letters would be
stretched with it, so no drawing holds any: names and figures stand beside it as text.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from kbtools.evidence import Share
from kbtools.evidence.counting import Odometer
from kbtools.model.money import Distance, show_number

LEAST_MARKS = 2
"""Fewer marks are no plot."""
_MOST_STEPS = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A share with its interval, or one length among others."""

    length: str
    """Of the bar, 0 to 100."""
    start: str
    """Where the interval starts, 0 to 100."""
    span: str
    """How long the interval is, 0 to 100."""
    end: str
    """Where it ends, 0 to 100."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StripRow:
    """The marks of one cause."""

    cause: str
    """Id of the cause, or `unlisted`."""
    marks: tuple[str, ...]
    """Where each reading stands, 0 to 100, rising."""
    readings: tuple[str, ...]
    """The readings in words, rising."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StripPlot:
    """Odometer readings by cause on one scale, which starts at 0."""

    rows: tuple[StripRow, ...]
    """In the order given."""
    end: str
    """The distance at the right end."""
    grid: tuple[str, ...]
    """Where the lines between the ends stand, 0 to 100."""


def share_bar(share: Share) -> Bar:
    """The mean as a bar, and the interval beside it."""
    return range_bar(share.mean, share.low, share.high)


def range_bar(part: float, low: float, high: float) -> Bar:
    """A part of 1 as a bar, and a range beside it."""
    return Bar(length=_hundredths(part), start=_hundredths(low), span=_hundredths(high - low), end=_hundredths(high))


def lengths(values: Sequence[float]) -> tuple[str, ...]:
    """Bars side by side: the largest of the values, 0 or more, takes the whole width."""
    most = max(values, default=0)
    return tuple(_hundredths(value / most if most > 0 else 0) for value in values)


def strip_plot(marks: Sequence[Odometer], order: Sequence[str]) -> StripPlot | None:
    """The counted ones among the readings of a fault, a row for each cause of `order`; None where they are too few."""
    by_cause: dict[str, list[Distance]] = {cause: [] for cause in order}
    for mark in marks:
        if mark.counted and mark.cause is not None and mark.cause in by_cause:
            by_cause[mark.cause].append(mark.distance)
    distances = [each for row in by_cause.values() for each in row]
    most = max((each.value for each in distances), default=0)
    if len(distances) < LEAST_MARKS or most == 0:
        return None
    step = _step(most)
    steps = math.ceil(most / step)
    end = Distance(value=step * steps, unit=distances[0].unit)
    return StripPlot(
        rows=tuple(
            StripRow(
                cause=cause,
                marks=tuple(_hundredths(each.value / end.value) for each in row),
                readings=tuple(each.text for each in row),
            )
            for cause, row in by_cause.items()
            if row
        ),
        end=end.text,
        grid=tuple(_hundredths(place / steps) for place in range(1, steps)),
    )


def _step(most: int) -> int:
    """A round distance of which at most five reach over the largest reading: 1, 2 or 5 with noughts."""
    size: int = 10 ** max(0, len(str(most)) - 2)
    return next(factor * size for factor in (1, 2, 5, 10, 20, 50) if factor * size * _MOST_STEPS >= most)


def _hundredths(part: float) -> str:
    return show_number(round(100 * part, 1))
