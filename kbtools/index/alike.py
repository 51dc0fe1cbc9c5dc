"""Which neighbouring years of a model list the same faults, and what differs to the years before; what fails most.

All of it is the site's: published faults as the index lists them for each year, and the cases that count.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from kbtools.index.answers import Index
from kbtools.index.cases import counted_by_fault
from kbtools.model.fault import Fault


@dataclass(frozen=True, slots=True, kw_only=True)
class AlikeYears:
    """Neighbouring years of a model that list the same faults."""

    first: int
    """The first of them."""
    last: int
    """The last of them."""
    faults: tuple[Fault, ...]
    """What each of them lists, in the order of the files."""
    also: tuple[Fault, ...]
    """Those that the year before did not list; empty for the model's first years."""
    no_longer: tuple[Fault, ...]
    """Those that the year before listed and these do not."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reported:
    """A fault of a model, and how often members reported it there."""

    fault: Fault
    """The entry."""
    cases: int
    """Counted cases on this model, of any year; at least one."""


def alike_years(model: str, index: Index) -> tuple[AlikeYears, ...]:
    """The years of a model in runs that list the same faults, from the first one on."""
    return tuple(_runs(model, index))


def _runs(model: str, index: Index) -> Iterator[AlikeYears]:
    listed = {
        year: {each.fault.id: each.fault for each in index.faults_by_model_year.get((model, year), ())}
        for year in index.years[model]
    }
    before: dict[str, Fault] | None = None
    for _, run in groupby(listed, key=lambda year: listed[year].keys()):
        years = list(run)
        own = listed[years[0]]
        yield AlikeYears(
            first=years[0],
            last=years[-1],
            faults=tuple(own.values()),
            also=() if before is None else tuple(own[each] for each in own if each not in before),
            no_longer=() if before is None else tuple(before[each] for each in before if each not in own),
        )
        before = own


def reported_most(model: str, index: Index) -> tuple[Reported, ...]:
    """The faults of a model by counted cases on it, the most often reported first, then in the order of the files."""
    rows = [
        Reported(fault=fault, cases=number)
        for fault in index.faults_by_model.get(model, ())
        if (number := _on(model, fault, index))
    ]
    return tuple(sorted(rows, key=lambda row: -row.cases))


def _on(model: str, fault: Fault, index: Index) -> int:
    by_cause = counted_by_fault(index.base).get(fault.id, {})
    return sum(case.vehicle.model == model for cases in by_cause.values() for case in cases)
