"""Which entries are to be read again, and when: spread over the year, so that no Sunday has all of them."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator

from kbtools.agenda.job import MINUTES, Job
from kbtools.index.entries import published
from kbtools.index.reviews import due
from kbtools.index.safety import critical_faults
from kbtools.model.base import KnowledgeBase
from kbtools.model.days import months_after
from kbtools.model.fault import Fault

AHEAD = 12
"""Months that are looked ahead."""


def reviews(base: KnowledgeBase, today: dt.date) -> Iterator[Job]:
    """A job for each published entry whose review is overdue or falls due within a year.

    A month has room for a twelfth of them. Those that are overdue come first, and of these the ones about what can hurt
    somebody, then those that have waited longest. The others keep the month in which they fall due while there is room
    in it, and else come earlier; never later.
    """
    critical = {fault.id for fault in critical_faults(base)}
    last = months_after(today, AHEAD)
    within = [
        (day, fault) for fault in published(base).values() if (day := due(fault, base)) is not None and day <= last
    ]
    late = sorted(
        ((day, fault) for day, fault in within if day < today), key=lambda each: (each[1].id not in critical, each[0])
    )
    soon = sorted(((day, fault) for day, fault in within if day >= today), key=lambda each: each[0], reverse=True)
    quota, load = math.ceil(len(within) / AHEAD), [0] * (AHEAD + 1)
    for number, (day, fault) in enumerate(late):
        planned = next((month for month, has in enumerate(load) if has < quota), 0)
        load[planned] += 1
        yield _job(fault, planned, _why(day, today, planned), -number)
    for day, fault in soon:
        falls = _months_between(today, day)
        planned = min(range(falls, -1, -1), key=lambda month: max(load[month] - quota + 1, 0))
        load[planned] += 1
        yield _job(fault, planned, _why(day, today, planned), today.toordinal() - day.toordinal() - len(late))


def _job(fault: Fault, planned: int, why: str, weight: float) -> Job:
    minutes = MINUTES["review"] + 2 * len(fault.causes)
    return Job(job="review", subject=fault.id, why=why, minutes=minutes, path=fault.path, months=planned, weight=weight)


def _months_between(today: dt.date, day: dt.date) -> int:
    return (day.year - today.year) * 12 + day.month - today.month


def _why(day: dt.date, today: dt.date, planned: int) -> str:
    said = f"The review was due on {day.isoformat()}" if day < today else f"The review falls due on {day.isoformat()}"
    if planned != max(_months_between(today, day), 0):
        month = months_after(today.replace(day=1), planned)
        return f"{said}; its turn is {month:%Y-%m}, so that no month has too many."
    return f"{said}."
