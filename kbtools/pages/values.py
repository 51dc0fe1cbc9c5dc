"""Test values: what a sound machine shows at each shared check that measures, of a model and of each model year."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping
from dataclasses import dataclass
from functools import partial

from kbtools.index.answers import Index
from kbtools.index.checks import exception_for, good_on, meanings, uses
from kbtools.index.scopes import scope
from kbtools.model.catalogue import Model
from kbtools.model.check import Check
from kbtools.model.fault import Source
from kbtools.model.money import Range
from kbtools.model.shared import SHARED_PATH, SharedCheck
from kbtools.pages import crumbs
from kbtools.pages.good_values import ExceptionView, exceptions, good_words
from kbtools.pages.lines import Link
from kbtools.pages.planned import Planned
from kbtools.pages.spec import Crumb, PageSpec
from kbtools.wording import addresses
from kbtools.wording.labels import BIKE, SOURCE, count_of


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceLine:
    """Where a figure comes from."""

    kind: str
    """In words."""
    source: Source
    """Title, year, links."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ValueView:
    """One test value."""

    id: str
    """Of the shared check."""
    place: str
    """Where to measure, Markdown; what to do where the reading names no place."""
    do: str | None
    """Markdown."""
    state: str
    """What the bike does, in words."""
    when: str | None
    """In which state, Markdown."""
    good: str
    """The good range with its unit."""
    least: str
    """Its lower end with its unit."""
    most: str
    """Its upper end with its unit."""
    because: str | None
    """Why this machine differs from others, Markdown; of a model year only."""
    exceptions: tuple[ExceptionView, ...]
    """Years on which another range is good; of a whole model only."""
    low: tuple[Link, ...]
    """The faults that a value below it speaks for."""
    high: tuple[Link, ...]
    """The faults that a value above it speaks for."""
    sources: tuple[SourceLine, ...]
    """Where it comes from, as far as that is about this machine."""


def pages(index: Index) -> Iterator[Planned]:
    """The test values of each model and of each of its years."""
    for model in index.base.models:
        for year in (None, *index.years[model]):
            address = addresses.values(model, year)
            yield Planned(address=address, kind="values", make=partial(_page, model, year, index))


def _page(model_id: str, year: int | None, index: Index) -> PageSpec:
    model = index.base.models[model_id]
    name = model.name if year is None else f"{model.name}, {year}"
    concerned = _concerned(model_id, year, index)
    rows = tuple(value_rows(model, year, concerned, index))
    above = () if year is None else (Crumb(address=addresses.model_year(model.id, year), title=str(year)),)
    return PageSpec(
        address=addresses.values(model.id, year),
        kind="values",
        title=f"Test values: {name}",
        description=f"{name}: what a sound machine shows, {count_of(len(rows), 'test value')} with place, condition, "
        "good range and source.",
        context={
            "name": name,
            "back": Link(
                address=addresses.model(model.id) if year is None else addresses.model_year(model.id, year), title=name
            ),
            "year": year,
            "rows": rows,
            "years": tuple(
                Link(address=addresses.values(model.id, each), title=str(each)) for each in index.years[model.id]
            ),
            "of_model": Link(address=addresses.values(model.id), title=model.name),
        },
        edit_path=SHARED_PATH if index.base.checks else None,
        crumbs=(crumbs.HOME_CRUMB, crumbs.MODELS_CRUMB, crumbs.model_crumb(model), *above),
    )


def _concerned(model: str, year: int | None, index: Index) -> Container[str]:
    if year is None:
        return {fault.id for fault in index.faults_by_model.get(model, ())}
    return {each.fault.id for each in index.faults_by_model_year.get((model, year), ())}


def value_rows(model: Model, year: int | None, concerned: Container[str], index: Index) -> Iterator[ValueView]:
    """The test values of a model or of one of its years, with those of the faults named that each speaks for."""
    for shared in index.base.checks.values():
        reading = shared.check.reading
        good = reading.good if reading is not None else None
        if reading is None or good is None:
            continue
        used = {fault.id: check for fault, check in uses(index.base).get(shared.id, ()) if fault.id in concerned}
        because = None
        if year is not None:
            good = good_on(shared.check, model.id, year) or good
            because = _because(shared.check, model.id, year)
        yield ValueView(
            id=shared.id,
            place=_opening(reading.place or shared.check.do or shared.id),
            do=shared.check.do,
            state=BIKE[shared.check.bike],
            when=reading.when,
            good=good_words(good, reading.unit) or "",
            least=_end(good.low, reading.unit),
            most=_end(good.high, reading.unit),
            because=because,
            exceptions=exceptions(shared.check, index, {model.id}) if year is None else (),
            low=_speaking(used, index, "low_points_to"),
            high=_speaking(used, index, "high_points_to"),
            sources=_sources(shared, model.id, year, index),
        )


def _opening(text: str) -> str:
    """A text at the start of a row."""
    return f"{text[0].upper()}{text[1:]}"


def _end(value: float, unit: str | None) -> str:
    return good_words(Range(low=value, high=value), unit) or ""


def _because(check: Check, model: str, year: int) -> str | None:
    row = exception_for(check, model, year)
    return None if row is None else row.because


def _speaking(used: Mapping[str, Check], index: Index, side: str) -> tuple[Link, ...]:
    """The faults for which a value on this side speaks."""
    return tuple(
        Link(address=addresses.fault(fault_id), title=index.published[fault_id].title)
        for fault_id, check in used.items()
        if fault_id in index.published and meanings(check).get(side)
    )


def _sources(shared: SharedCheck, model: str, year: int | None, index: Index) -> tuple[SourceLine, ...]:
    """Where the figure comes from; a recall or bulletin for other machines says nothing about this one."""
    return tuple(
        SourceLine(kind=SOURCE[each.kind], source=each)
        for each in shared.sources
        if not each.applies_to or _covers(each, model, year, index)
    )


def _covers(source: Source, model: str, year: int | None, index: Index) -> bool:
    years = scope(source.applies_to, index.base.models, index.years).get(model, {})
    return bool(years) if year is None else year in years
