"""What's new: entries by the day of their review, withdrawn ones, and cases by the day on which they were seen."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from kbtools.changes.by_case import Turn
from kbtools.index.answers import Index
from kbtools.index.cases import newest_first
from kbtools.model.case import Case
from kbtools.model.days import months_after
from kbtools.model.fault import Fault
from kbtools.pages import crumbs
from kbtools.pages.case_lines import case_lines
from kbtools.pages.lines import Link
from kbtools.pages.spec import PageSpec, Section
from kbtools.wording import addresses
from kbtools.wording.labels import month

MONTHS: Final = 12
"""So far back the page looks."""
MOST: Final = 60
"""More it never shows."""
LEAST: Final = 10
"""So many it shows however old they are, so that a quiet year leaves no empty page."""
KINDS: Final = ("withdrawn", "reviewed", "case")
"""In the order in which one day's news stand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class News:
    """One thing that happened to the knowledge base, or that a member saw."""

    on: dt.date
    """Its day."""
    kind: str
    """One of `KINDS`."""
    id: str
    """Of the entry or the case."""
    link: Link | None
    """The entry's page; None for a case that nobody has explained."""
    anchor: str
    """Where on the page of `link`; empty: the page."""
    machine: Link | None
    """Of a case: the model year."""
    model: str
    """Of a case: name of the model."""
    note: str
    """Of a review who read it, of a case how it ended; plain text, may be empty."""
    turned: tuple[str, ...] = ()
    """Of a case: what it has turned on the entry's page, sentences; plain text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthView:
    """The news of one month."""

    id: str
    """Of its element: `m2026-03`."""
    title: str
    """`March 2026`."""
    news: tuple[News, ...]
    """The newest first."""


def pages(index: Index, today: dt.date, turned: Mapping[str, Turn] | None = None) -> Iterator[PageSpec]:
    """The one page. It is made from the days in the files alone, so that the same files make the same page.

    Args:
        index: of the knowledge base.
        today: up to which it tells.
        turned: what cases have turned, by their id; None: it is not told.
    """
    months = tuple(_months(latest(index, today, turned)))
    yield PageSpec(
        address=addresses.NEW,
        kind="new",
        title=addresses.NEW_TITLE,
        description="The entries that were read again, added or withdrawn lately, and the newest case reports.",
        context={"months": months},
        crumbs=(crumbs.HOME_CRUMB,),
        sections=tuple(Section(id=each.id, title=each.title) for each in months),
    )


def latest(index: Index, today: dt.date, turned: Mapping[str, Turn] | None = None) -> tuple[News, ...]:
    """The news up to `today`, the newest first: those of the last twelve months, not too many and not too few."""
    known = [each for each in _all(index, turned or {}) if each.on <= today]
    known.sort(key=lambda each: (-each.on.toordinal(), KINDS.index(each.kind), each.id))
    since = months_after(today, -MONTHS)
    return tuple(each for place, each in enumerate(known[:MOST]) if each.on >= since or place < LEAST)


def _all(index: Index, turned: Mapping[str, Turn]) -> Iterator[News]:
    for fault in index.tombstones.values():
        if fault.withdrawn is not None and fault.withdrawn.on is not None:
            yield _entry("withdrawn", fault, fault.withdrawn.on, "")
    for fault in index.published.values():
        if fault.reviewed is not None:
            read = fault.reviewed
            yield _entry("reviewed", fault, read.on, read.by if read.second is None else f"{read.by} and {read.second}")
    for case in newest_first(index.base):
        if case.seen is not None:
            yield _case(case, case.seen, index, turned)


def _entry(kind: str, fault: Fault, on: dt.date, note: str) -> News:
    link = Link(address=addresses.fault(fault.id), title=fault.title)
    return News(on=on, kind=kind, id=fault.id, link=link, anchor="", machine=None, model="", note=note)


def _case(case: Case, on: dt.date, index: Index, turned: Mapping[str, Turn]) -> News:
    line = case_lines((case,), index, turned)[0]
    entry = index.entry(case.fault) if case.fault else None
    is_told = entry is not None and entry.id in index.cases_by_fault
    return News(
        on=on,
        kind="case",
        id=case.id,
        link=line.fault,
        anchor=line.anchor if is_told else "",
        machine=line.machine,
        model=line.model,
        note=line.state,
        turned=line.turned,
    )


def _months(news: Sequence[News]) -> Iterator[MonthView]:
    for first, own in itertools.groupby(news, key=lambda each: each.on.replace(day=1)):
        yield MonthView(id=f"m{first:%Y-%m}", title=month(first), news=tuple(own))
