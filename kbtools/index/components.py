"""Which components an entry of the site names, and where on the bike a check or a cause is.

A component that no published fault names has no page: there would be nothing on it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from kbtools.index.checks import pointed
from kbtools.index.entries import published
from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Component, Zone
from kbtools.model.check import Check
from kbtools.model.fault import Fault


@per_base
def named_components(base: KnowledgeBase) -> Mapping[str, Component]:
    """The components that published faults name as causes, by id, in the order of the file."""
    named = {cause.component for fault in published(base).values() for cause in fault.causes}
    return {each: component for each, component in base.components.items() if each in named}


def components_of(fault: Fault, causes: Iterable[str], base: KnowledgeBase) -> Sequence[Component]:
    """The components of some causes of a fault, each once, in the order of the causes."""
    wanted = set(causes)
    ids = dict.fromkeys(cause.component for cause in fault.causes if cause.id in wanted)
    found = (base.components.get(each or "") for each in ids)
    return [each for each in found if each is not None]


def where_checked(fault: Fault, check: Check, base: KnowledgeBase) -> Sequence[Component]:
    """The components that a check is about: those of the causes that it can point to."""
    return components_of(fault, pointed(check), base)


def zones_of(components: Iterable[Component]) -> tuple[Zone, ...]:
    """Where they are on the bike, each place once."""
    return tuple(dict.fromkeys(each.zone for each in components if each.zone is not None))
