"""Which cautions hold where the hands are: those that a row names, and those of all that it touches.

An entry touches its system and those above it. A cause and its fix touch that, the cause's component and its system; a
check touches that, and the components of all causes that it points to. Whoever opens something touches the access job
and what that needs. Nobody repeats these cautions; here they are worked out, each once, the own ones first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from kbtools.index.access import access_jobs
from kbtools.index.checks import pointed
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Caution, Hazard
from kbtools.model.check import Check
from kbtools.model.fault import Cause, Fault


def cautions_of_fault(base: KnowledgeBase, fault: Fault) -> tuple[Caution, ...]:
    """The cautions that hold for all work on a fault."""
    return _known(base, _of_fault(base, fault))


def cautions_of_fix(base: KnowledgeBase, fault: Fault, cause: Cause) -> tuple[Caution, ...]:
    """The cautions that hold for mending a cause, those of the whole fault among them."""
    fix = cause.fix
    own = () if fix is None else (*fix.cautions, *_of_access(base, fix.access))
    return _known(base, (*own, *_of_component(base, cause.component), *_of_fault(base, fault)))


def cautions_of_check(base: KnowledgeBase, fault: Fault, check: Check) -> tuple[Caution, ...]:
    """The cautions that hold for a check, those of the whole fault among them."""
    causes = [cause for each in pointed(check) if (cause := fault.cause(each)) is not None]
    parts = [each for cause in causes for each in _of_component(base, cause.component)]
    return _known(base, (*check.cautions, *_of_access(base, check.access), *parts, *_of_fault(base, fault)))


def cautions_of_look(base: KnowledgeBase, check: Check) -> tuple[Caution, ...]:
    """The cautions that hold for a check that no fault is asked about yet: its own and those of its access jobs."""
    return _known(base, (*check.cautions, *_of_access(base, check.access)))


def hazards(cautions: Iterable[Caution]) -> frozenset[Hazard]:
    """What the cautions are about."""
    return frozenset(each.hazard for each in cautions if each.hazard is not None)


def _known(base: KnowledgeBase, ids: Iterable[str]) -> tuple[Caution, ...]:
    return tuple(base.cautions[each] for each in dict.fromkeys(ids) if each in base.cautions)


def _of_fault(base: KnowledgeBase, fault: Fault) -> Iterator[str]:
    yield from fault.cautions
    yield from _of_system(base, fault.system)


def _of_component(base: KnowledgeBase, component_id: str | None) -> Iterator[str]:
    component = base.components.get(component_id or "")
    if component is not None:
        yield from component.cautions
        yield from _of_system(base, component.system)


def _of_system(base: KnowledgeBase, system_id: str | None) -> Iterator[str]:
    """Of a system and of those above it, the nearest first; parents stand before children, so there is no circle."""
    system = base.systems.get(system_id or "")
    while system is not None:
        yield from system.cautions
        system = base.systems.get(system.parent or "")


def _of_access(base: KnowledgeBase, jobs: Iterable[str]) -> Iterator[str]:
    for job in access_jobs(jobs, base):
        yield from job.cautions
