"""Where the knowledge base is thin: faults by model year and system, and the entries that a case would help most."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from kbtools.checkplan.where_cases_help import narrowest
from kbtools.index.answers import Index
from kbtools.index.reviews import overdue
from kbtools.model.catalogue import Model, System
from kbtools.model.fault import Fault
from kbtools.pages import crumbs
from kbtools.pages.drawing import lengths
from kbtools.pages.fault import contribute_page
from kbtools.pages.lines import Link
from kbtools.pages.spec import PageSpec, Section
from kbtools.wording import addresses
from kbtools.wording.labels import day

MOST_NARROWED: Final = 10
MOST_LISTED: Final = 40
"""So many entries of a list are named; of the others the number is told."""
SHADES: Final = (1, 2, 3, 5)
"""A cell has the shade of the last of these that its faults reach; 0 is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A model year in one system."""

    faults: int
    """Known faults."""
    shade: int
    """0 where there is none, up to the number of shades."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GridRow:
    """A system of one model."""

    system: Link
    """Its page."""
    cells: tuple[Cell, ...]
    """By model year."""
    faults: int
    """Known faults of the model in it, each counted once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """One model: systems by model years."""

    model: Link
    """Its page."""
    years: tuple[Link, ...]
    """Its model years."""
    rows: tuple[GridRow, ...]
    """The systems at the top of the tree, each with those below it."""
    totals: tuple[int, ...]
    """Known faults by model year."""
    faults: int
    """Known faults of the model."""
    cases: tuple[int, ...]
    """Case reports by model year."""
    empty: tuple[Link, ...]
    """The systems for which nothing is written down."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A fault in a list, with what makes it stand there."""

    link: Link
    """Its page."""
    note: str
    """Plain text."""
    length: str = ""
    """Of its bar, 0 to 100; empty: none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entries:
    """The first of a list of entries."""

    shown: tuple[Entry, ...]
    """Those that are named."""
    more: int
    """How many others there are."""


def pages(index: Index, today: dt.date) -> Iterator[PageSpec]:
    """The one page."""
    grids = tuple(_grid(model, index) for model in index.base.models.values())
    lists = {"narrowed": _narrowed(index), "unseen": _unseen(index), "overdue": _overdue(index, today)}
    yield PageSpec(
        address=addresses.COVERAGE,
        kind="coverage",
        title=addresses.COVERAGE_TITLE,
        description="How many known faults each model year has by system, which entries one more case would make surer "
        "most, which have no case at all, and whose review is overdue.",
        context={
            "grids": grids,
            "shades": _shade_words(),
            "faults": len(index.published),
            "cases": len(index.base.cases),
            "contribute": contribute_page(index),
            **lists,
        },
        crumbs=(crumbs.HOME_CRUMB,),
        sections=(
            Section(id="grids", title="Known faults by model year"),
            *(Section(id=name, title=_TITLES[name]) for name, each in lists.items() if each.shown),
        ),
    )


_TITLES: Final = {
    "narrowed": "Where one more case helps most",
    "unseen": "Entries without a case",
    "overdue": "Review overdue",
}


def _grid(model: Model, index: Index) -> Grid:
    years = index.years[model.id]
    listed = [[each.fault for each in index.faults_by_model_year.get((model.id, year), ())] for year in years]
    counts = [Counter(_top(fault, index) for fault in faults) for faults in listed]
    all_faults = index.faults_by_model.get(model.id, ())
    whole = Counter(_top(fault, index) for fault in all_faults)
    rows = tuple(_row(system, [count[system.id] for count in counts], whole) for system in index.children.get(None, ()))
    return Grid(
        model=Link(address=addresses.model(model.id), title=model.name),
        years=tuple(Link(address=addresses.model_year(model.id, year), title=str(year)) for year in years),
        rows=rows,
        totals=tuple(map(len, listed)),
        faults=len(all_faults),
        cases=tuple(len(index.cases_by_model_year.get((model.id, year), ())) for year in years),
        empty=tuple(row.system for row in rows if not row.faults),
    )


def _top(fault: Fault, index: Index) -> str | None:
    """Id of the system at the top of the tree to which a fault belongs."""
    path = index.paths.get(fault.system or "", ())
    return path[0].id if path else None


def _row(system: System, faults: list[int], whole: Counter[str | None]) -> GridRow:
    return GridRow(
        system=Link(address=addresses.system(system.id), title=system.name),
        cells=tuple(Cell(faults=each, shade=sum(each >= least for least in SHADES)) for each in faults),
        faults=whole[system.id],
    )


def _shade_words() -> tuple[str, ...]:
    """What each shade stands for: `0`, `1`, `2`, `3–4`, `5 or more`."""
    middle = [str(low) if low + 1 == high else f"{low}–{high - 1}" for low, high in pairwise(SHADES)]
    return ("0", *middle, f"{SHADES[-1]} or more")


def _narrowed(index: Index) -> Entries:
    known = narrowest(index, MOST_NARROWED)
    bars = lengths([each.narrowing for _, each in known])
    shown = [
        Entry(
            link=_link(fault),
            note=f"{_cases(each.cases)}; one share may lie anywhere within {round(100 * each.widest)} of 100 points",
            length=length,
        )
        for (fault, each), length in zip(known, bars, strict=True)
    ]
    return Entries(shown=tuple(shown), more=0)


def _cases(number: int) -> str:
    if not number:
        return "No case counts yet"
    return f"{number} case counts" if number == 1 else f"{number} cases count"


def _unseen(index: Index) -> Entries:
    unseen = [fault for fault in index.published.values() if not index.cases_by_fault.get(fault.id)]
    return _cut(Entry(link=_link(fault), note=_models(fault, index)) for fault in unseen)


def _models(fault: Fault, index: Index) -> str:
    return ", ".join(index.base.models[model].name for model in index.scopes[fault.id])


def _overdue(index: Index, today: dt.date) -> Entries:
    """The longest overdue first."""
    late = [
        (fault.reviewed.on, fault.id, fault)
        for fault in index.published.values()
        if fault.reviewed is not None and overdue(fault, index.club, today)
    ]
    return _cut(
        Entry(link=_link(fault), note=f"Last reviewed on {day(on)}")
        for on, _, fault in sorted(late, key=lambda each: each[:2])
    )


def _link(fault: Fault) -> Link:
    return Link(address=addresses.fault(fault.id), title=fault.title)


def _cut(entries: Iterable[Entry]) -> Entries:
    known = tuple(entries)
    return Entries(shown=known[:MOST_LISTED], more=len(known[MOST_LISTED:]))
