"""Which causes and checks of two entries are the same, and the second entry with the ids that it has in the draft."""

from __future__ import annotations

import dataclasses
import functools
import itertools
from collections.abc import Hashable, Iterable, Mapping

from kbtools.merging.each_once import each_once
from kbtools.model.check import Check, Reading
from kbtools.model.fault import Fault
from kbtools.similarity.features import Readier
from kbtools.similarity.met import SAME_CAUSE, same_cause


def cause_ids(first: Fault, second: Fault, readier: Readier) -> dict[str, str]:
    """Each cause of the second one: the id of the first one's cause that it is, or a new one."""
    found: dict[str, str] = {}
    taken = {cause.id for cause in first.causes}
    free = list(first.causes)
    for cause in second.causes:
        twin = max(free, key=functools.partial(same_cause, readier, cause), default=None)
        if twin is not None and same_cause(readier, cause, twin) >= SAME_CAUSE:
            free.remove(twin)
            found[cause.id] = twin.id
        else:
            found[cause.id] = _free_id(cause.id, taken)
            taken.add(found[cause.id])
    return found


def check_ids(first: Fault, second: Fault) -> dict[str, str]:
    """Each check of the second one: the id of the first one's check that says the same, or a new one."""
    same = {_doing(check): check.id for check in first.checks}
    taken = {check.id for check in first.checks}
    found: dict[str, str] = {}
    for check in second.checks:
        # A shared check has its id from elsewhere.
        found[check.id] = check.id if check.use else same.get(_doing(check)) or _free_id(check.id, taken)
        taken.add(found[check.id])
    return found


def renamed(fault: Fault, causes: Mapping[str, str], checks: Mapping[str, str]) -> Fault:
    """The fault with other ids of its causes and checks, wherever it names them.

    Args:
        fault: the second one.
        causes: id of a cause → its id in the draft.
        checks: id of a check → its id in the draft.
    """

    def new(ids: Iterable[str]) -> tuple[str, ...]:
        return each_once(causes.get(each, each) for each in ids)

    def aimed(reading: Reading) -> Reading:
        low, high = new(reading.low_points_to), new(reading.high_points_to)
        return dataclasses.replace(reading, low_points_to=low, high_points_to=high)

    return dataclasses.replace(
        fault,
        causes=tuple(
            dataclasses.replace(cause, id=causes[cause.id], often_with=new(cause.often_with)) for cause in fault.causes
        ),
        checks=tuple(
            dataclasses.replace(
                check,
                id=checks[check.id],
                points_to=new(check.points_to),
                reading=None if check.reading is None else aimed(check.reading),
            )
            for check in fault.checks
        ),
        sources=tuple(dataclasses.replace(source, covers=new(source.covers)) for source in fault.sources),
    )


def _doing(check: Check) -> Hashable:
    reading = check.reading
    measured = None if reading is None else (reading.place, reading.when, reading.good, reading.unit)
    return ((check.do or check.id).casefold(), (check.expect or "").casefold(), measured)


def _free_id(identity: str, taken: Iterable[str]) -> str:
    """The id, with a number if it is taken."""
    known = set(taken)
    numbered = (f"{identity}-{number}" for number in itertools.count(2))
    return next(name for name in itertools.chain([identity], numbered) if name not in known)
