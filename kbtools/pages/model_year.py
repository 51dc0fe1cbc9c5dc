"""Model-year pages: recalls and bulletins first, then the faults by system, then what is fitted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from kbtools.index.answers import Index, Notice
from kbtools.model.catalogue import Model
from kbtools.model.fault import Source
from kbtools.pages import crumbs
from kbtools.pages.case_lines import case_lines
from kbtools.pages.handbook_size import Size
from kbtools.pages.lines import Line, Link, by_system, code_links, line
from kbtools.pages.model import UnitView, unit_view
from kbtools.pages.planned import Planned
from kbtools.pages.spec import PageSpec, Section
from kbtools.wording import addresses
from kbtools.wording.labels import SOURCE, count_of


@dataclass(frozen=True, slots=True, kw_only=True)
class NoticeGroup:
    """One recall or bulletin with the faults that it stands in."""

    kind: str
    """`Recall` or `Bulletin`."""
    source: Source
    """Number, issuer, region, title, links."""
    lines: tuple[Line, ...]
    """The faults, each with the questions that the campaign's own rows ask."""


def pages(index: Index, sizes: Mapping[str, Size]) -> Iterator[Planned]:
    """The pages of all model years of all models; `sizes` has those of the handbooks by address."""
    for model in index.base.models:
        # They follow from the model and the faults alone, for which each page asks itself.
        known_lines: dict[str, Line] = {}
        for year in index.years[model]:
            make = partial(_page, model, year, index, known_lines, sizes)
            address = addresses.model_year(model, year)
            yield Planned(address=address, kind="model-year", make=make, member=address)


def _page(model_id: str, year: int, index: Index, known_lines: dict[str, Line], sizes: Mapping[str, Size]) -> PageSpec:
    model = index.base.models[model_id]
    key = (model.id, year)
    years = index.years[model.id]
    place = years.index(year)
    listed = index.faults_by_model_year.get(key, ())
    cases = index.cases_by_model_year.get(key, ())
    unexplained = [case for case in cases if case.fault is None]
    context: dict[str, object] = {
        "model": Link(address=addresses.model(model.id), title=model.name),
        "model_id": model.id,
        "year": year,
        "values": addresses.values(model.id, year),
        "handbook": addresses.handbook(model.id, year),
        "size": sizes[addresses.handbook(model.id, year)],
        "notices": notice_groups(index.notices_by_model_year.get(key, ())),
        "groups": by_system(listed, index, model, known_lines),
        "units": _units(model, year, index),
        "codes": code_links((each.fault for each in listed), model),
        "cases": case_lines(cases, index),
        "unexplained": len(unexplained),
        "earlier": _neighbour(model.id, years[place - 1]) if place else None,
        "later": _neighbour(model.id, years[place + 1]) if place + 1 < len(years) else None,
    }
    return PageSpec(
        address=addresses.model_year(model.id, year),
        kind="model-year",
        title=f"{model.name}, {year}",
        description=f"{model.name}, model year {year}: recalls and bulletins, "
        f"{count_of(len(listed), 'known fault')} by system, control units.",
        context=context,
        edit_path=model.path,
        crumbs=(
            crumbs.HOME_CRUMB,
            crumbs.MODELS_CRUMB,
            crumbs.model_crumb(model),
        ),
        sections=tuple(_sections(context)),
    )


def _sections(context: dict[str, object]) -> Iterator[Section]:
    if context["notices"]:
        yield Section(id="notices", title="Recalls and bulletins")
    yield Section(id="faults", title="Known faults by system")
    if context["codes"]:
        yield Section(id="codes", title="Fault codes")
    if context["units"]:
        yield Section(id="units", title="Control units")
    if context["cases"]:
        yield Section(id="cases", title="Cases")


def notice_groups(notices: Sequence[Notice]) -> tuple[NoticeGroup, ...]:
    """Each campaign once, with all faults that it stands in; one without a number is told by its title."""
    groups: dict[tuple[str, str, str], list[Notice]] = {}
    for notice in notices:
        groups.setdefault(notice.campaign, []).append(notice)
    return tuple(
        NoticeGroup(
            kind=SOURCE[own[0].source.kind],
            source=own[0].source,
            lines=tuple({each.fault.id: line(each.fault, each.questions) for each in own}.values()),
        )
        for own in groups.values()
    )


def _units(model: Model, year: int, index: Index) -> tuple[UnitView, ...]:
    return tuple(unit_view(unit, index) for unit in index.units_by_model_year.get((model.id, year), ()))


def _neighbour(model: str, year: int) -> Link:
    return Link(address=addresses.model_year(model, year), title=str(year))
