"""Model pages, the list of all models, and what a model year shares with them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kbtools.index.answers import Index
from kbtools.model.catalogue import ControlUnit, Model
from kbtools.model.fault import Source
from kbtools.model.years import Years, unbroken
from kbtools.pages import crumbs
from kbtools.pages.lines import Line, Link, all_listed, by_system, code_links, line
from kbtools.pages.spec import PageSpec, Section
from kbtools.pages.timeline import Campaign, campaigns, timeline
from kbtools.wording import addresses
from kbtools.wording.labels import SOURCE, count_of, show_years


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


def pages(index: Index) -> Iterator[PageSpec]:
    """The list of all models, and the page of each."""
    yield _all_models(index)
    for model in index.base.models.values():
        yield _page(model, index)


def _page(model: Model, index: Index) -> PageSpec:
    faults = index.faults_by_model.get(model.id, ())
    years = index.years[model.id]
    units = tuple(unit_view(unit, index) for unit in model.control_units)
    sections = [Section(id="years", title="Model years")]
    if units:
        sections.append(Section(id="units", title="Control units"))
    notices = tuple(_campaign(each) for each in campaigns(model, index))
    if notices:
        sections.append(Section(id="notices", title="Recalls and bulletins"))
    sections += [Section(id="faults", title="Known faults by system"), Section(id="codes", title="Fault codes")]
    return PageSpec(
        address=addresses.model(model.id),
        kind="model",
        title=model.name,
        description=f"{model.name}, {show_years(model.years)}: {count_of(len(faults), 'known fault')} by system and "
        "model year, with control units and fault codes.",
        context={
            "model": model,
            "values": addresses.values(model.id),
            "built": show_years(model.years),
            "years": tuple(_year(model.id, year, index) for year in years),
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
