"""Which causes a check points to, which checks point to a cause, which are shared and by whom."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from kbtools.index.entries import faults
from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.check import Check, GoodFor
from kbtools.model.fault import Fault
from kbtools.model.money import Range
from kbtools.model.shared import SHARED_PATH, SharedCheck


def pointed(check: Check) -> tuple[str, ...]:
    """Ids of all causes that a check can point to."""
    reading = check.reading
    sides = () if reading is None else (*reading.low_points_to, *reading.high_points_to)
    return (*check.points_to, *sides)


def meanings(check: Check) -> Mapping[str, tuple[str, ...]]:
    """What each result besides good means, by the key under which a row says it; nothing under it: not there."""
    reading = check.reading
    if reading is None:
        return {"points_to": check.points_to}
    return {"low_points_to": reading.low_points_to, "high_points_to": reading.high_points_to}


def checks_by_cause(fault: Fault) -> Mapping[str, tuple[Check, ...]]:
    """Id of a cause → the checks of the fault that can point to it, each once, in file order."""
    found: dict[str, list[Check]] = {}
    for check in fault.checks:
        for cause in dict.fromkeys(pointed(check)):
            found.setdefault(cause, []).append(check)
    return {cause: tuple(checks) for cause, checks in found.items()}


def answer_intact(fault: Fault, check: Check) -> bool:
    """Whether all was read of what a check may show and what it points to."""
    if not fault.damaged:
        return True
    keys = ("expect", "points_to", "reading", "low_points_to", "high_points_to")
    return all(fault.intact(f"{check.at}/{key}") for key in keys)


def own_checks(fault: Fault) -> tuple[Check, ...]:
    """The checks that stand whole in the fault's own file."""
    return tuple(check for check in fault.checks if check.use is None)


def written(base: KnowledgeBase) -> Iterator[tuple[str, Check]]:
    """Every check where it is written, once, with its file: the shared ones, then the own ones of all entries."""
    yield from ((SHARED_PATH, shared.check) for shared in base.checks.values())
    for fault in faults(base):
        yield from ((fault.path, check) for check in own_checks(fault))


@per_base
def uses(base: KnowledgeBase) -> Mapping[str, tuple[tuple[Fault, Check], ...]]:
    """Id of a shared check → the entries that use it, whatever their state, each with the check as it uses it."""
    found: dict[str, list[tuple[Fault, Check]]] = {}
    for fault in faults(base):
        for check in fault.checks:
            if check.use is not None:
                found.setdefault(check.id, []).append((fault, check))
    return {check_id: tuple(rows) for check_id, rows in found.items()}


def looked_at_first(base: KnowledgeBase, system_id: str | None) -> tuple[SharedCheck, ...]:
    """The shared checks that come before any plan of a system, in file order: those for it and for the ones above."""
    above = set()
    while system_id is not None and system_id in base.systems:
        above.add(system_id)
        system_id = base.systems[system_id].parent
    return tuple(each for each in base.checks.values() if not above.isdisjoint(each.look_first_for))


def first_looks(base: KnowledgeBase, systems: Iterable[str | None]) -> tuple[Check, ...]:
    """What is looked at first in any of several systems, each once; what an owner needs no tools for comes first."""
    found = {each.id: each.check for system_id in systems for each in looked_at_first(base, system_id)}
    return tuple(sorted(found.values(), key=lambda check: bool(check.tools) or check.skill != "home"))


def exception_for(check: Check, model: str, year: int) -> GoodFor | None:
    """The row of other good values that holds for a machine; None: the reading's own range does."""
    return next((row for row in check.good_for if row.model == model and row.years.holds(year)), None)


def good_on(check: Check, model: str, year: int) -> Range | None:
    """What a good reading is on a machine; None of a check without a reading."""
    row = exception_for(check, model, year)
    if row is not None:
        return row.good
    return None if check.reading is None else check.reading.good
