"""`cases.csv`: a row a case report, with the keys of the case format."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.export.csv_text import Cell, joined
from kbtools.index.answers import Index
from kbtools.index.cases import earlier_cases
from kbtools.model.case import Case
from kbtools.model.money import Distance

HEADER = (
    *("id", "model", "year", "odometer", "bike", "seen", "conditions", "codes", "symptoms", "fault"),
    *("state", "cause", "also", "after", "verified", "parts", "labour", "where", "follows"),
)


def row(case: Case, index: Index) -> tuple[Cell, ...]:
    """Distances with their unit, as in the file; a fault that is not published is left out."""
    vehicle, outcome = case.vehicle, case.outcome
    fault = index.entry(case.fault) if case.fault is not None else None
    return (
        case.id,
        vehicle.model,
        vehicle.year,
        _distance(vehicle.odometer),
        vehicle.bike,
        case.seen.isoformat() if case.seen is not None else None,
        joined(case.conditions),
        joined(each.read.text for each in case.codes),
        joined(case.symptoms),
        fault.id if fault is not None else None,
        outcome.state,
        outcome.cause if fault is not None else None,
        joined(outcome.also if fault is not None else ()),
        _distance(outcome.after),
        outcome.verified,
        *_paid(case),
        earlier_cases(index.base).get(case.id),
    )


def _paid(case: Case) -> Iterator[Cell]:
    paid = case.outcome.paid
    yield from (None, None, None) if paid is None else (paid.parts, paid.labour, paid.where)


def _distance(distance: Distance | None) -> str | None:
    return None if distance is None else f"{distance.value} {distance.unit}"
