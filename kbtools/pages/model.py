"""Model pages, the list of all models, and what a model year shares with them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from kbtools.index.alike import AlikeYears, alike_years, reported_most
from kbtools.index.answers import Index
from kbtools.model.catalogue import ControlUnit
from kbtools.model.fault import Fault, Source
from kbtools.model.years import Years, unbroken
from kbtools.pages import crumbs
from kbtools.pages.drawing import lengths
from kbtools.pages.handbook_size import Size
from kbtools.pages.lines import Line, Link, all_listed, by_system, code_links, line
from kbtools.pages.planned import Planned
from kbtools.pages.spec import PageSpec, Section
from kbtools.pages.timeline import Campaign, campaigns, timeline
from kbtools.wording import addresses
from kbtools.wording.labels import SOURCE, count_of, show_years

_MOST: Final = 8
"""Faults that are shown as reported most."""
_NAMED: Final = 3
"""Faults that are named where years differ; of more their number is told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class YearView:
    """A model year in the list of a model."""

    link: Link
    """Its page."""
    faults: int
    """Known faults that concern it."""
    recalls: int
    """Recalls and bulletins that cover it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Differing:
    """Faults by which years differ from those before."""

    named: tuple[Link, ...]
    """The first of them."""
    more: int
    """How many others there are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AlikeView:
    """Neighbouring years that list the same faults."""

    years: str
    """`2003 to 2005`, or one year."""
    one: bool
    """It is one year."""
    faults: int
    """How many each of them lists."""
    since: str
    """The first of them."""
    also: Differing
    """What the year before did not list."""
    no_longer: Differing
    """What only the year before listed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MostView:
    """A fault in the list of what is reported most."""

    line: Line
    """The fault."""
    cases: str
    """How many counted cases on this model, in words."""
    length: str
    """Of its bar, 0 to 100; the longest is 100."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitView:
    """A control unit in the list of a model or a model year."""

    name: str
    """Plain text."""
    system: Link | None
    """The system that it controls."""
    years: str
    """In words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CampaignView:
    """A recall or bulletin in the list of a model."""

    kind: str
    """`Recall` or `Bulletin`."""
    source: Source
    """Number, issuer, region, title, links."""
    years: str
    """The model years that it covers, in words."""
    lines: tuple[Line, ...]
    """The faults that name it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelRow:
    """A model in the list of all models."""

    link: Link
    """Its page."""
    years: str
    """In words."""
    also_called: tuple[str, ...]
    """Other names."""
    faults: int
    """Known faults."""


def pages(index: Index, sizes: Mapping[str, Size]) -> Iterator[Planned]:
    """The list of all models, and the page of each; `sizes` has those of the handbooks by address."""
    yield Planned(address=addresses.MODELS, kind="models", make=partial(_all_models, index))
    for each in index.base.models:
        yield Planned(
            address=addresses.model(each),
            kind="model",
            make=partial(_page, each, index, sizes),
            member=addresses.model(each),
        )


def _page(model_id: str, index: Index, sizes: Mapping[str, Size]) -> PageSpec:
    model = index.base.models[model_id]
    faults = index.faults_by_model.get(model.id, ())
    years = index.years[model.id]
    units = tuple(unit_view(unit, index) for unit in model.control_units)
    notices = tuple(_campaign(each) for each in campaigns(model, index))
    most = _most(model.id, index)
    sections = [
        Section(id="years", title="Choose your year"),
        *([Section(id="most", title="What is reported most")] if most else []),
        *([Section(id="notices", title="Recalls and bulletins")] if notices else []),
        Section(id="faults", title="Known faults by system"),
        Section(id="over-years", title="Over the years"),
        Section(id="codes", title="Fault codes"),
    ]
    return PageSpec(
        address=addresses.model(model.id),
        kind="model",
        title=model.name,
        description=f"{model.name}, {show_years(model.years)}: {count_of(len(faults), 'known fault')} by system and "
        "model year, with control units and fault codes.",
        context={
            "model": model,
            "values": addresses.values(model.id),
            "handbook": addresses.handbook(model.id),
            "size": sizes[addresses.handbook(model.id)],
            "built": show_years(model.years),
            "years": tuple(_year(model.id, year, index) for year in years),
            "alike": tuple(_alike(each) for each in alike_years(model.id, index)),
            "most": most,
            "timeline": timeline(model, index),
            "campaigns": notices,
            "units": units,
            "groups": by_system(all_listed(faults), index, model),
            "faults": len(faults),
            "codes": code_links(faults, model),
        },
        edit_path=model.path,
        crumbs=(crumbs.HOME_CRUMB, crumbs.MODELS_CRUMB),
        sections=tuple(sections),
    )


def _year(model: str, year: int, index: Index) -> YearView:
    return YearView(
        link=Link(address=addresses.model_year(model, year), title=str(year)),
        faults=len(index.faults_by_model_year.get((model, year), ())),
        recalls=len(index.notices_by_model_year.get((model, year), ())),
    )


def _alike(run: AlikeYears) -> AlikeView:
    one = run.first == run.last
    return AlikeView(
        years=str(run.first) if one else f"{run.first} to {run.last}",
        one=one,
        faults=len(run.faults),
        since=str(run.first),
        also=_differing(run.also),
        no_longer=_differing(run.no_longer),
    )


def _differing(faults: Sequence[Fault]) -> Differing:
    return Differing(
        named=tuple(Link(address=addresses.fault(each.id), title=each.title) for each in faults[:_NAMED]),
        more=max(0, len(faults) - _NAMED),
    )


def _most(model: str, index: Index) -> tuple[MostView, ...]:
    rows = reported_most(model, index)[:_MOST]
    return tuple(
        MostView(line=line(row.fault, on=index.base.models[model]), cases=count_of(row.cases, "case"), length=length)
        for row, length in zip(rows, lengths([row.cases for row in rows]), strict=True)
    )


def unit_view(unit: ControlUnit, index: Index) -> UnitView:
    """A control unit with the system that it controls."""
    system = index.base.systems.get(unit.system or "")
    return UnitView(
        name=unit.name,
        system=Link(address=addresses.system(system.id), title=system.name) if system is not None else None,
        years=show_years(unit.years),
    )


def _campaign(campaign: Campaign) -> CampaignView:
    source = campaign.notice.source
    return CampaignView(
        kind=SOURCE[source.kind],
        source=source,
        years=", ".join(show_years(Years(first=first, last=last)) for first, last in unbroken(campaign.years)),
        lines=tuple(line(fault) for fault in campaign.faults),
    )


def model_rows(index: Index) -> tuple[ModelRow, ...]:
    """All models in the order of their files."""
    return tuple(
        ModelRow(
            link=Link(address=addresses.model(model.id), title=model.name),
            years=show_years(model.years),
            also_called=model.also_called,
            faults=len(index.faults_by_model.get(model.id, ())),
        )
        for model in index.base.models.values()
    )


def _all_models(index: Index) -> PageSpec:
    rows = model_rows(index)
    return PageSpec(
        address=addresses.MODELS,
        kind="models",
        title="Models",
        description=f"{count_of(len(rows), 'model')} with their years, control units and known faults.",
        context={"rows": rows},
        crumbs=(crumbs.HOME_CRUMB,),
    )
