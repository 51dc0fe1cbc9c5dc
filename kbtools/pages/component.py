"""Component pages, and the list of all components."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from kbtools.index.answers import CauseUse, Index
from kbtools.model.catalogue import Component
from kbtools.model.fault import Fault
from kbtools.pages import crumbs
from kbtools.pages.lines import Line, Link, code_links, line
from kbtools.pages.spec import PageSpec, Section
from kbtools.pages.views import Anchor
from kbtools.wording import addresses
from kbtools.wording.labels import count_of, share_words


@dataclass(frozen=True, slots=True, kw_only=True)
class ComponentRow:
    """A component in a list."""

    link: Link
    """Its page."""
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


@dataclass(frozen=True, slots=True, kw_only=True)
class ComponentGroup:
    """The components of a system."""

    system: Link
    """The system."""
    rows: tuple[ComponentRow, ...]
    """Its own components."""


def pages(index: Index) -> Iterator[PageSpec]:
    """The list of all components, and the page of each."""
    yield _all_components(index)
    for component in index.base.components.values():
        yield _page(component, index)


def component_rows(components: Iterable[Component], index: Index) -> tuple[ComponentRow, ...]:
    """Components as rows, in the order given."""
    return tuple(
        ComponentRow(
            link=Link(address=addresses.component(each.id), title=each.name),
            faults=len({use.fault.id for use in index.causes_by_component.get(each.id, ())}),
        )
        for each in components
    )


def _page(component: Component, index: Index) -> PageSpec:
    uses = index.causes_by_component.get(component.id, ())
    faults = {use.fault.id: use.fault for use in uses}
    path = index.paths.get(component.system or "", ())
    return PageSpec(
        address=addresses.component(component.id),
        kind="component",
        title=component.name,
        description=f"{component.name}: a cause in {count_of(len(faults), 'known fault')}.",
        context={
            "component": component,
            "systems": tuple(Link(address=addresses.system(each.id), title=each.name) for each in path),
            "rows": _fault_causes(uses, index),
            "codes": code_links(faults.values()),
        },
        edit_path="systems.yml",
        crumbs=(crumbs.HOME_CRUMB, crumbs.COMPONENTS_CRUMB),
        sections=(Section(id="faults", title="Faults of which it can be the cause"),),
    )


def _fault_causes(uses: Iterable[CauseUse], index: Index) -> tuple[FaultCauses, ...]:
    by_fault: dict[str, list[CauseUse]] = {}
    for use in uses:
        by_fault.setdefault(use.fault.id, []).append(use)
    return tuple(
        FaultCauses(
            line=line(own[0].fault),
            models=tuple(index.base.models[model].name for model in index.scopes[fault_id]),
            causes=_causes(own[0].fault, {use.cause.id for use in own}),
        )
        for fault_id, own in by_fault.items()
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
