"""What's new: what the feeds say, by months: ride advice that changed, entries read again or withdrawn, cases."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from kbtools.changes import news as told
from kbtools.changes.by_case import Turn
from kbtools.index.answers import Index
from kbtools.model.days import months_after
from kbtools.pages import crumbs
from kbtools.pages.case_lines import case_lines
from kbtools.pages.lines import Link
from kbtools.pages.spec import PageSpec, Section
from kbtools.wording import addresses
from kbtools.wording.labels import RIDE, SOURCE, month

MONTHS: Final = 12
"""So far back the page looks."""
MOST: Final = 60
"""More it never shows."""
LEAST: Final = 10
"""So many it shows however old they are, so that a quiet year leaves no empty page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class News:
    """One thing that happened to the knowledge base, or that a member saw."""

    on: dt.date
    """Its day."""
    kind: told.Kind
    """What it is about."""
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
    """Of a review who read it, of a case how it ended, of ride advice what it is now; plain text, may be empty."""
    before: str = ""
    """Of ride advice what it was, plain text."""
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


Turned = Mapping[str, Turn]
"""What cases have turned, by their id."""


def pages(index: Index, today: dt.date, news: Sequence[told.News], turned: Turned | None = None) -> Iterator[PageSpec]:
    """The one page, made from `news`, the newest first. `turned`: what cases have turned; None: it is not told."""
    months = tuple(_months(latest(index, today, news, turned)))
    yield PageSpec(
        address=addresses.NEW,
        kind="new",
        title=addresses.NEW_TITLE,
        description="Ride advice that changed, entries that were added, read again or withdrawn, and the newest cases.",
        context={"months": months, "feed": addresses.FEED},
        crumbs=(crumbs.HOME_CRUMB,),
        sections=tuple(Section(id=each.id, title=each.title) for each in months),
    )


def latest(index: Index, today: dt.date, news: Sequence[told.News], turned: Turned | None = None) -> tuple[News, ...]:
    """The news up to `today`, the newest first: those of the last twelve months, not too many and not too few."""
    known = itertools.islice((each for each in news if each.on <= today), MOST)
    since = months_after(today, -MONTHS)
    return tuple(_line(each, index, turned) for place, each in enumerate(known) if each.on >= since or place < LEAST)


def _line(each: told.News, index: Index, turned: Turned | None) -> News:
    fault, case = each.fault, each.case
    link = Link(address=addresses.fault(fault.id), title=fault.title) if fault is not None else None
    line = case_lines((case,), index, turned)[0] if case is not None else None
    is_told = fault is not None and fault.id in index.cases_by_fault
    return News(
        on=each.on,
        kind=each.kind,
        id=each.id,
        link=link,
        anchor=line.anchor if line is not None and is_told else "",
        machine=line.machine if line is not None else None,
        model=line.model if line is not None else "",
        note=line.state if line is not None else _note(each),
        before=RIDE[each.was].word if each.kind == "advice" else "",
        turned=line.turned if line is not None else (),
    )


def _note(each: told.News) -> str:
    if each.kind == "advice":
        return RIDE[each.now].word
    if each.source is not None:
        return f"{SOURCE[each.source.kind]} {each.source.number or each.source.title}"
    read = each.fault.reviewed if each.fault is not None else None
    if each.kind != "reviewed" or read is None:
        return ""
    return read.by if read.second is None else f"{read.by} and {read.second}"


def _months(news: Sequence[News]) -> Iterator[MonthView]:
    for first, own in itertools.groupby(news, key=lambda each: each.on.replace(day=1)):
        yield MonthView(id=f"m{first:%Y-%m}", title=month(first), news=tuple(own))
