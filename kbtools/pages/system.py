"""System pages, and the tree of all systems."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from kbtools.index.answers import Index
from kbtools.pages import crumbs
from kbtools.pages.component import ComponentRow, component_rows
from kbtools.pages.lines import Link, by_model, code_links, line
from kbtools.pages.planned import Planned
from kbtools.pages.spec import PageSpec, Section
from kbtools.pages.whom import whom
from kbtools.wording import addresses
from kbtools.wording.labels import count_of


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemNode:
    """A system in the tree."""

    link: Link
    """Its page."""
    safety_critical: bool
    """A mistake in the work can hurt someone."""
    faults: int
    """Known faults, those of the systems below it counted in."""
    components: tuple[ComponentRow, ...]
    """Its own components."""
    children: tuple[SystemNode, ...]
    """The systems right below it."""


def pages(index: Index) -> Iterator[Planned]:
    """The tree of all systems, and the page of each."""
    yield Planned(address=addresses.SYSTEMS, kind="systems", make=partial(_all_systems, index))
    for each in index.base.systems:
        yield Planned(address=addresses.system(each), kind="system", make=partial(_page, each, index))


def nodes(index: Index, parent: str | None = None) -> tuple[SystemNode, ...]:
    """The systems below one, or those at the top, with all below them."""
    return tuple(
        SystemNode(
            link=Link(address=addresses.system(system.id), title=system.name),
            safety_critical=system.safety_critical,
            faults=len(index.faults_by_system.get(system.id, ())),
            components=component_rows(index.components_by_system.get(system.id, ()), index),
            children=nodes(index, system.id),
        )
        for system in index.children.get(parent, ())
    )


def _page(system_id: str, index: Index) -> PageSpec:
    system = index.base.systems[system_id]
    faults = index.faults_by_system.get(system.id, ())
    own = index.faults_of_system.get(system.id, ())
    below = nodes(index, system.id)
    components = component_rows(index.components_by_system.get(system.id, ()), index)
    sections = [Section(id="systems", title="Systems below it")] if below else []
    sections.append(Section(id="faults", title="Known faults by model"))
    if components:
        sections.append(Section(id="components", title="Components"))
    return PageSpec(
        address=addresses.system(system.id),
        kind="system",
        title=system.name,
        description=f"{system.name}: {count_of(len(faults), 'known fault')} by model, and the components they are in.",
        context={
            "system": system,
            "children": below,
            "components": components,
            "own": tuple(line(fault, whom=whom(fault, index)) for fault in own) if below else (),
            "groups": by_model(faults, index),
            "faults": len(faults),
            "codes": code_links(faults),
        },
        edit_path="systems.yml",
        crumbs=crumbs.system_crumbs(index.paths[system.id][:-1]),
        sections=tuple(sections),
    )


def _all_systems(index: Index) -> PageSpec:
    return PageSpec(
        address=addresses.SYSTEMS,
        kind="systems",
        title="Systems",
        description=f"{count_of(len(index.base.systems), 'system')} of the machines, with their components and faults.",
        context={"nodes": nodes(index)},
        edit_path="systems.yml",
        crumbs=(crumbs.HOME_CRUMB,),
    )
