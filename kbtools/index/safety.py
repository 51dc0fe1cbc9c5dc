"""On which systems a mistake in the work can hurt somebody, and which work is work on them.

`System.safety_critical` holds for a system and all below it, as it was read.
"""

from __future__ import annotations

from collections.abc import Sequence

from kbtools.index.entries import published
from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import System
from kbtools.model.fault import Cause, Fault


def critical_system(base: KnowledgeBase, fault: Fault) -> System | None:
    """The system of a fault if it is safety-critical, itself or by one above it; else None."""
    return _critical(base, fault.system)


def critical_work(base: KnowledgeBase, fault: Fault, cause: Cause) -> bool:
    """Whether mending this cause is work on a safety-critical system: the fault's, or the component's own."""
    component = base.components.get(cause.component or "")
    own = component.system if component is not None else None
    return critical_system(base, fault) is not None or _critical(base, own) is not None


@per_base
def critical_faults(base: KnowledgeBase) -> Sequence[Fault]:
    """The published faults with a fix that is work on a safety-critical system, in the order of the files."""
    return [
        fault
        for fault in published(base).values()
        if any(cause.fix is not None and critical_work(base, fault, cause) for cause in fault.causes)
    ]


def _critical(base: KnowledgeBase, system_id: str | None) -> System | None:
    system = base.systems.get(system_id or "")
    return system if system is not None and system.safety_critical else None
