"""The lists of a handbook: recalls and bulletins, test values, and what codes and symptoms lead to."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from kbtools.index.answers import Index, Listed
from kbtools.index.scopes import can_report
from kbtools.model.catalogue import Model
from kbtools.model.fault import Source
from kbtools.model.years import Years, unbroken
from kbtools.pages.lines import Link
from kbtools.pages.timeline import campaigns
from kbtools.pages.values import ValueView, value_rows
from kbtools.wording import addresses
from kbtools.wording.labels import SOURCE, show_years


@dataclass(frozen=True, slots=True, kw_only=True)
class Ref:
    """Where a fault's card stands."""

    number: str
    """`F12`."""
    page: str
    """Address of the page; empty: the same page."""
    anchor: str
    """Id of the card."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NoticeRow:
    """A recall or bulletin."""

    kind: str
    """`Recall` or `Bulletin`."""
    source: Source
    """Number, issuer, region, title, links."""
    years: str
    """The model years that it covers, in words; empty in the handbook of one year."""
    refs: tuple[Ref, ...]
    """The faults that name it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ValueRow:
    """A test value, as the page of test values has it."""

    value: ValueView
    """The value."""
    low: tuple[Ref, ...]
    """The faults that a value below it speaks for."""
    high: tuple[Ref, ...]
    """The faults that a value above it speaks for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class IndexRow:
    """A line of an index."""

    title: str
    """Plain text."""
    refs: tuple[Ref, ...]
    """What it leads to."""


def notice_rows(model: Model, year: int | None, refs: Mapping[str, Ref], index: Index) -> Iterator[NoticeRow]:
    """The recalls and bulletins of a model, or those that cover one of its years; recalls first."""
    for each in campaigns(model, index):
        if year is not None and year not in each.years:
            continue
        runs = unbroken(each.years) if year is None else ()
        yield NoticeRow(
            kind=SOURCE[each.notice.source.kind],
            source=each.notice.source,
            years=", ".join(show_years(Years(first=first, last=last)) for first, last in runs),
            refs=tuple(refs[fault.id] for fault in each.faults if fault.id in refs),
        )


def values_table(model: Model, year: int | None, refs: Mapping[str, Ref], index: Index) -> Iterator[ValueRow]:
    """The test values, each with the faults of the handbook that it speaks for."""
    by_address = {addresses.fault(fault_id): ref for fault_id, ref in refs.items()}

    def named(links: Iterable[Link]) -> tuple[Ref, ...]:
        return tuple(by_address[link.address] for link in links if link.address in by_address)

    for row in value_rows(model, year, refs, index):
        yield ValueRow(value=row, low=named(row.low), high=named(row.high))


def codes_index(listed: Iterable[Listed], refs: Mapping[str, Ref], model: Model) -> tuple[IndexRow, ...]:
    """The codes that the model's control units report, in the order of their texts."""
    found: dict[str, dict[str, Ref]] = {}
    for each in listed:
        for row in each.fault.codes:
            if can_report(row, model):
                for match in row.read.matches:
                    found.setdefault(match.text, {})[each.fault.id] = refs[each.fault.id]
    return _rows(found)


def signs_index(listed: Iterable[Listed], refs: Mapping[str, Ref]) -> tuple[IndexRow, ...]:
    """What one notices, in the order of the alphabet."""
    found: dict[str, dict[str, Ref]] = {}
    for each in listed:
        for symptom in each.fault.symptoms:
            found.setdefault(symptom, {})[each.fault.id] = refs[each.fault.id]
    return _rows(found)


def _rows(found: Mapping[str, Mapping[str, Ref]]) -> tuple[IndexRow, ...]:
    return tuple(
        IndexRow(title=title, refs=tuple(own.values()))
        for title, own in sorted(found.items(), key=lambda row: (row[0].casefold(), row[0]))
    )
