"""Which cases are about a fault, and which of them count as evidence.

Which are about a fault is asked in two ways, on purpose:

- `cases_by_fault`: the site. An old id of a fault leads on, and what is no advice has no cases. The last seen first.
- `cases_naming`: the rules, the finder and the merging of entries. By the id as written, whatever the state of the
  entry, since naming an old id is a mistake of its own (KB310). In the order of the files.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence

from kbtools.index.entries import published
from kbtools.index.heirs import renamed
from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import UNLISTED, Case
from kbtools.model.fault import Fault


@per_base
def newest_first(base: KnowledgeBase) -> Sequence[Case]:
    """All cases, the last seen first; those that do not say when come last."""
    return sorted(base.cases.values(), key=lambda case: (case.seen or dt.date.min, case.id), reverse=True)


def last_seen(base: KnowledgeBase) -> dt.date | None:
    """Day of the last case; None where no case names one."""
    cases = newest_first(base)
    return cases[0].seen if cases else None


@per_base
def cases_naming(base: KnowledgeBase) -> Mapping[str, Sequence[Case]]:
    """Id of a fault as cases write it → these cases, in the order of the files."""
    found: dict[str, list[Case]] = {}
    for case in base.cases.values():
        if case.fault is not None:
            found.setdefault(case.fault, []).append(case)
    return found


@per_base
def cases_by_fault(base: KnowledgeBase) -> Mapping[str, tuple[Case, ...]]:
    """Id of a published fault → its cases, those among them that name it by an old id; the last seen first."""
    old, advice = renamed(base), published(base)
    found: dict[str, list[Case]] = {}
    for case in newest_first(base):
        fault = old.get(case.fault or "", case.fault or "")
        if fault in advice:
            found.setdefault(fault, []).append(case)
    return {fault: tuple(cases) for fault, cases in found.items()}


@per_base
def earlier_cases(base: KnowledgeBase) -> Mapping[str, str]:
    """Id of a case → id of the earlier one that it follows, as written."""
    return {case.id: case.follows for case in base.cases.values() if case.follows is not None}


@per_base
def followed(base: KnowledgeBase) -> frozenset[str]:
    """Ids of the cases that a later one follows: the trouble was not over."""
    return frozenset(earlier_cases(base).values())


def followed_among(cases: Iterable[Case]) -> frozenset[str]:
    """Ids of the cases that one of these follows."""
    return frozenset(case.follows for case in cases if case.follows is not None)


def counted(
    fault: Fault, cases: Iterable[Case], base: KnowledgeBase, over: frozenset[str] | None = None
) -> dict[str, list[Case]]:
    """The cases that count as evidence, among these of a fault, by their cause.

    A case counts if it is solved with a cause that the fault lists or `unlisted`, was ridden as far since as the club
    asks (`solved_after`) or was verified, and no later case follows it. `over` are those that one follows;
    None: those of the whole base.
    """
    listed = {cause.id for cause in fault.causes} | {UNLISTED}
    far_enough = base.club.solved_after if base.club is not None else None
    over = followed(base) if over is None else over
    found: dict[str, list[Case]] = {}
    for case in cases:
        cause = case.outcome.cause
        if cause in listed and case.id not in over and case.outcome.is_solved(far_enough):
            found.setdefault(cause, []).append(case)
    return found


@per_base
def counted_by_fault(base: KnowledgeBase) -> Mapping[str, Mapping[str, Sequence[Case]]]:
    """Id of a published fault → its cases that count, by their cause; those without any are missing."""
    advice = published(base)
    found = {fault: counted(advice[fault], cases, base) for fault, cases in cases_by_fault(base).items()}
    return {fault: by_cause for fault, by_cause in found.items() if by_cause}


@per_base
def solved_without_fault(base: KnowledgeBase) -> Sequence[Case]:
    """The cases that were solved and are about no fault that anyone has described, in the order of the files."""
    return [case for case in base.cases.values() if case.fault is None and case.outcome.state == "solved"]


@per_base
def without_fault(base: KnowledgeBase) -> Sequence[Case]:
    """The cases that are about no fault that anyone has described, whatever their state; the last seen first."""
    return [case for case in newest_first(base) if case.fault is None]


@per_base
def counted_naming(base: KnowledgeBase) -> Mapping[str, Sequence[Case]]:
    """Id of a fault, whatever its state → the cases that name it and count; those without any are missing."""
    found = {
        fault_id: [case for group in counted(base.faults[fault_id], cases, base).values() for case in group]
        for fault_id, cases in cases_naming(base).items()
        if fault_id in base.faults
    }
    return {fault_id: cases for fault_id, cases in found.items() if cases}


@per_base
def cases_known(base: KnowledgeBase) -> bool:
    """Whether it can be told which cases count: one that is not read whole may be of any fault, and may count."""
    lost = (each for case in base.cases.values() for each in case.damaged)
    return base.club is not None and not any(each in {"", "/fault"} or each.startswith("/outcome") for each in lost)
