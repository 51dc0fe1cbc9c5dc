"""Component pages, and the list of all components."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import partial

from kbtools.index.answers import CauseUse, Index
from kbtools.index.cases import counted_by_fault
from kbtools.index.checks import checks_by_cause
from kbtools.index.components import named_components, zones_of
from kbtools.model.catalogue import Component
from kbtools.model.fault import Fault
from kbtools.pages import crumbs
from kbtools.pages.good_values import good_words
from kbtools.pages.lines import Line, Link, code_links, line
from kbtools.pages.planned import Planned
from kbtools.pages.spec import PageSpec, Section
from kbtools.pages.views import Anchor
from kbtools.pages.whom import whom
from kbtools.wording import addresses
from kbtools.wording.labels import count_of, place_words, share_words


@dataclass(frozen=True, slots=True, kw_only=True)
class ComponentRow:
    """A component in a list."""

    link: Link | None
    """Its page; None where no known fault names it."""
    title: str
    """What it is called."""
    faults: int
    """Faults of which it can be the cause."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultCauses:
    """A fault, and what in it this component is the cause of."""

    line: Line
    """The fault."""
    models: tuple[str, ...]
    """Names of the models that it concerns."""
    causes: tuple[tuple[Anchor, str | None], ...]
    """The causes, each with how often it is the one."""
    cases: int
    """Counted cases in which one of them was it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ComponentCheck:
    """A check that can tell that it is this component."""

    address: str
    """Of the fault's page."""
    do: str
    """What is done, Markdown."""
    good: str | None
    """The good range with its unit, of a measured one."""
    fault: str
    """Title of the fault."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ComponentGroup:
    """The components of a system."""

    system: Link
    """The system."""
    rows: tuple[ComponentRow, ...]
    """Its own components."""


def pages(index: Index) -> Iterator[Planned]:
    """The list of all components, and the page of each that a fault names."""
    yield Planned(address=addresses.COMPONENTS, kind="components", make=partial(_all_components, index))
    for each in named_components(index.base):
        yield Planned(address=addresses.component(each), kind="component", make=partial(_page, each, index))


def component_rows(components: Iterable[Component], index: Index) -> tuple[ComponentRow, ...]:
    """Components as rows, in the order given."""
    named = named_components(index.base)
    return tuple(
        ComponentRow(
            link=Link(address=addresses.component(each.id), title=each.name) if each.id in named else None,
            title=each.name,
            faults=len({use.fault.id for use in index.causes_by_component.get(each.id, ())}),
        )
        for each in components
    )


def _page(component_id: str, index: Index) -> PageSpec:
    component = named_components(index.base)[component_id]
    uses = index.causes_by_component.get(component.id, ())
    faults = {use.fault.id: use.fault for use in uses}
    path = index.paths.get(component.system or "", ())
    checks = tuple(_checks(uses))
    return PageSpec(
        address=addresses.component(component.id),
        kind="component",
        title=component.name,
        description=f"{component.name}: a cause in {count_of(len(faults), 'known fault')}.",
        context={
            "component": component,
            "systems": tuple(Link(address=addresses.system(each.id), title=each.name) for each in path),
            "places": zones_of([component]),
            "place_words": place_words([component]),
            "rows": _fault_causes(uses, index),
            "checks": checks,
            "codes": code_links(faults.values()),
        },
        edit_path="systems.yml",
        crumbs=(crumbs.HOME_CRUMB, crumbs.COMPONENTS_CRUMB),
        sections=(
            Section(id="faults", title="What fails on it"),
            *((Section(id="checks", title="How it is checked"),) if checks else ()),
        ),
    )


def _fault_causes(uses: Iterable[CauseUse], index: Index) -> tuple[FaultCauses, ...]:
    by_fault: dict[str, list[CauseUse]] = {}
    for use in uses:
        by_fault.setdefault(use.fault.id, []).append(use)
    rows = (
        FaultCauses(
            line=line(own[0].fault, whom=whom(own[0].fault, index)),
            models=tuple(index.base.models[model].name for model in index.scopes[fault_id]),
            causes=_causes(own[0].fault, {use.cause.id for use in own}),
            cases=_counted(own, index),
        )
        for fault_id, own in by_fault.items()
    )
    return tuple(sorted(rows, key=lambda row: -row.cases))


def _counted(uses: Iterable[CauseUse], index: Index) -> int:
    """Cases that count with one of these causes of a fault."""
    own = list(uses)
    fault = own[0].fault
    found = counted_by_fault(index.base).get(fault.id, {})
    return sum(len(found.get(use.cause.id, ())) for use in own)


def _checks(uses: Iterable[CauseUse]) -> Iterator[ComponentCheck]:
    """The checks that point to these causes; a shared one once, however many faults use it."""
    told = set()
    for use in uses:
        for check in checks_by_cause(use.fault).get(use.cause.id, ()):
            key = check.id if check.use is not None else (use.fault.id, check.id)
            if key in told or check.do is None:
                continue
            told.add(key)
            reading = check.reading
            yield ComponentCheck(
                address=addresses.fault(use.fault.id),
                do=check.do,
                good=good_words(reading.good, reading.unit) if reading is not None else None,
                fault=use.fault.title,
            )


def _causes(fault: Fault, picked: set[str]) -> tuple[tuple[Anchor, str | None], ...]:
    return tuple(
        (Anchor(id=f"cause-{cause.id}", title=cause.summary or cause.id), share)
        for cause, share in zip(fault.causes, share_words(fault.causes), strict=True)
        if cause.id in picked
    )


def _all_components(index: Index) -> PageSpec:
    groups = tuple(
        ComponentGroup(
            system=Link(address=addresses.system(system.id), title=system.name),
            rows=component_rows(index.components_by_system[system.id], index),
        )
        for system in index.base.systems.values()
        if system.id in index.components_by_system
    )
    return PageSpec(
        address=addresses.COMPONENTS,
        kind="components",
        title="Components",
        description=f"{count_of(len(index.base.components), 'component')} by system, and the faults they can cause.",
        context={"groups": groups},
        edit_path="systems.yml",
        crumbs=(crumbs.HOME_CRUMB,),
    )
