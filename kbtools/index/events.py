"""Which cases tell of one event: the same machine, the same day, the same trouble."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence

from kbtools.index.cases import counted_naming, earlier_cases, followed
from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case

EventKey = tuple[str, dt.date] | tuple[str | None, int | None, dt.date, float]
"""A bike by its made-up id and a day; or model, model year, day and kilometres."""


def event_keys(case: Case) -> Iterator[EventKey]:
    """What two tellings of one event share: the bike and the day, or the sort of machine, the day and the odometer."""
    vehicle = case.vehicle
    if case.seen is None:
        return
    if vehicle.bike is not None:
        yield (vehicle.bike, case.seen)
    if vehicle.odometer is not None:
        yield (vehicle.model, vehicle.year, case.seen, vehicle.odometer.km)


def same_event(one: Case, other: Case) -> bool:
    """Whether two cases that share one of `event_keys` are one event.

    A bike may have two troubles on one day. Without its id two bikes may have the same figures, rounded by who wrote
    them down: then the cause must not be another one either.
    """
    bikes = (one.vehicle.bike, other.vehicle.bike)
    machine = one.vehicle.model == other.vehicle.model and one.vehicle.year == other.vehicle.year
    if not machine or not _alike(one.fault, other.fault) or not _alike(*bikes):
        return False
    return bikes[0] == bikes[1] != None or _alike(one.outcome.cause, other.outcome.cause)  # noqa: E711 (a chain)


def _alike(one: str | None, other: str | None) -> bool:
    return one == other or one is None or other is None


@per_base
def events(base: KnowledgeBase) -> Mapping[EventKey, Sequence[Case]]:
    """Each of `event_keys` → the cases that have it, in the order of the files."""
    found: dict[EventKey, list[Case]] = {}
    for case in base.cases.values():
        for key in event_keys(case):
            found.setdefault(key, []).append(case)
    return found


@per_base
def counting(base: KnowledgeBase) -> frozenset[str]:
    """Ids of the cases that count as evidence, of whichever fault."""
    return frozenset(case.id for cases in counted_naming(base).values() for case in cases)


@per_base
def _later(base: KnowledgeBase) -> Mapping[str, str]:
    """Id of a case → id of the one that goes on with it; of several the last seen."""
    order = sorted(earlier_cases(base), key=lambda each: (base.cases[each].seen or dt.date.min, each))
    return {earlier_cases(base)[each]: each for each in order}


def last_of(base: KnowledgeBase, case: str) -> str:
    """Id of the case at which one arrives who goes on from a case to those that follow it."""
    way = {case}
    while case in followed(base) and _later(base)[case] not in way:
        case = _later(base)[case]
        way.add(case)
    return case
