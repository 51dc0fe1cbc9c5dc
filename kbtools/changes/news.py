"""What is new: one list for the page, the feeds and my bike.

The day of each is that of the commit that brought it, where the log tells; else the one that the file names. Nothing
here knows what day it is, so that the same files and the same log make the same news.
"""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from kbtools.changes.history import NO_HISTORY, Event, History, notice_key
from kbtools.index.answers import Index
from kbtools.index.cases import newest_first
from kbtools.index.heirs import old_ids
from kbtools.model.case import Case
from kbtools.model.fault import NOTICES, Fault, Source
from kbtools.model.ride_advice import RIDE_LEVELS, RideLevel

Kind = Literal["advice", "withdrawn", "notice", "new", "reviewed", "case"]
KINDS: Final[tuple[Kind, ...]] = ("advice", "withdrawn", "notice", "new", "reviewed", "case")
"""In the order in which one day's news stand: what an owner must hear first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class News:
    """One thing that happened to the knowledge base, or that a member saw."""

    on: dt.date
    """Its day."""
    kind: Kind
    """What it is about."""
    key: str
    """Its name, which never changes: `faults/battery-flat-overnight/reviewed/2026-03-14`."""
    fault: Fault | None
    """The entry, published or withdrawn; None of a case that nobody has explained."""
    case: Case | None = None
    """Of `case`."""
    source: Source | None = None
    """Of `notice`: the recall or bulletin."""
    was: RideLevel | None = None
    """Of `advice`: the level before."""
    now: RideLevel | None = None
    """Of `advice`: the level since."""

    @property
    def id(self) -> str:
        """Of the case or the entry."""
        return self.case.id if self.case is not None else self.fault.id if self.fault is not None else ""


def news(index: Index, history: History = NO_HISTORY) -> tuple[News, ...]:
    """All news, the newest first; of one day in the order of `KINDS`, then by id."""
    happened = _by_entry(index, history)
    old = old_ids(index.base)
    found: list[News] = []
    for fault in (*index.published.values(), *index.tombstones.values()):
        # The first id stays in the names of news, so that a renamed entry is not news once more.
        name = f"faults/{old.get(fault.id, (fault.id,))[0]}"
        found += _of_entry(fault, name, happened.get(fault.id, ()))
    found += _cases(index, history)
    found.sort(key=lambda each: (-each.on.toordinal(), KINDS.index(each.kind), each.id, each.key))
    return tuple(found)


def concerned(item: News, index: Index) -> Mapping[str, tuple[int, ...]]:
    """Id of a model → its model years that a piece of news is about; of a withdrawn entry those that it was about."""
    if item.case is not None:
        model, year = item.case.vehicle.model, item.case.vehicle.year
        return {model: (year,)} if model is not None and year is not None else {}
    if item.fault is None:
        return {}
    scope = index.scopes.get(item.fault.id)
    if scope is not None:
        return {model: tuple(sorted(years)) for model, years in scope.items()}
    return {row.model: index.years[row.model] for row in item.fault.applies_to if row.model in index.years}


def models(item: News, index: Index) -> Iterable[str]:
    """Ids of the models that a piece of news is about."""
    if item.case is not None:
        return () if item.case.vehicle.model is None else (item.case.vehicle.model,)
    if item.fault is None:
        return ()
    return index.scopes.get(item.fault.id) or dict.fromkeys(row.model for row in item.fault.applies_to)


def systems(item: News, index: Index) -> tuple[str, ...]:
    """Ids of the systems that a piece of news is about, from the top down."""
    system = item.fault.system if item.fault is not None else None
    return tuple(each.id for each in index.paths.get(system or "", ()))


def _by_entry(index: Index, history: History) -> dict[str, list[Event]]:
    """The events of each entry by the id that it has today, the latest first."""
    found: dict[str, list[Event]] = {}
    for each in history.events:
        found.setdefault(index.renamed.get(each.id, each.id), []).append(each)
    return found


def _of_entry(fault: Fault, name: str, happened: Sequence[Event]) -> Iterator[News]:
    if fault.withdrawn is not None:
        day = next((each.day for each in happened if each.kind == "withdrawn"), fault.withdrawn.on)
        if day is not None:
            yield News(on=day, kind="withdrawn", key=f"{name}/withdrawn", fault=fault)
        return
    for each in happened:
        was, now = _level(each.was), _level(each.now)
        if each.kind == "advice" and was is not None and now is not None:
            key = f"{name}/advice/{each.day}/{now}"
            yield News(on=each.day, kind="advice", key=key, fault=fault, was=was, now=now)
    came = next((each.day for each in happened if each.kind == "new"), None)
    if came is not None:
        yield News(on=came, kind="new", key=f"{name}/new", fault=fault)
    if fault.reviewed is not None:
        day = fault.reviewed.on
        read = _day_of(happened, "reviewed", day.isoformat())
        if read is None or read != came:
            yield News(on=read or day, kind="reviewed", key=f"{name}/reviewed/{day}", fault=fault)
        yield from _notices(fault, day, name, happened)


def _notices(fault: Fault, read: dt.date, name: str, happened: Sequence[Event]) -> Iterator[News]:
    for source in fault.sources:
        if source.kind in NOTICES:
            which = notice_key(source.kind, source.issuer or "", source.number or source.title)
            day = _day_of(happened, "notice", which)
            if day is not None or _is_of(source, read):
                key = f"{name}/{source.kind}/{hashlib.sha256(which.encode()).hexdigest()[:12]}"
                yield News(on=day or read, kind="notice", key=key, fault=fault, source=source)


def _day_of(happened: Sequence[Event], kind: str, now: str) -> dt.date | None:
    return next((each.day for each in happened if each.kind == kind and each.now == now), None)


def _is_of(source: Source, read: dt.date) -> bool:
    """Whether a recall or bulletin was new when its entry was read: of that year or of the one before."""
    return source.year is not None and source.year >= read.year - 1


def _level(text: str) -> RideLevel | None:
    return next((each for each in RIDE_LEVELS if each == text), None)


def _cases(index: Index, history: History) -> Iterator[News]:
    for case in newest_first(index.base):
        day = history.came.get(case.id, case.seen)
        if day is not None:
            fault = index.entry(case.fault) if case.fault is not None else None
            yield News(on=day, kind="case", key=f"cases/{case.id}", fault=fault, case=case)
