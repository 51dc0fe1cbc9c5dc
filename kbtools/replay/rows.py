"""A row for each counted case of a published fault: what the cases seen before it would have said to it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from kbtools.checkplan.problem import gaps, problem_of
from kbtools.index.answers import Index
from kbtools.index.cases import counted
from kbtools.index.together import machine_of
from kbtools.model.case import UNLISTED, Case
from kbtools.model.fault import Fault
from kbtools.model.memory import Memory
from kbtools.replay.advice import Advice, Turned, advice_of
from kbtools.replay.fault_share import FaultShares
from kbtools.replay.kept import Kept


@dataclass(frozen=True, slots=True, kw_only=True)
class ReplayRow:
    """A counted case beside the advice that it would have had."""

    case: str
    """Id of the case."""
    seen: dt.date
    """Day on which it was seen; only cases of earlier days speak."""
    fault: str
    """Id of its fault."""
    cause: str
    """Id of its cause; `unlisted`, also for one that does not exist on its bike."""
    fault_share: float | None
    """Share of its fault in the plan for its codes; None where it is not among their faults."""
    advice: Advice
    """Shares and costs."""
    paid: float | None
    """Parts and labour, club currency; None where the case says neither."""


def replay(index: Index, memory: Memory | None = None) -> tuple[ReplayRow, ...]:
    """A row for each counted case of a published fault that has a plan, by the day it was seen, then by id.

    A damaged case that does not say when it was seen has no row, and speaks for nothing.

    Args:
        index: of the knowledge base.
        memory: knows the costs of faults of which nothing has changed; None: all are worked out.
    """
    shares = FaultShares(index)
    kept = None if memory is None else Kept(index, memory)
    rows = (row for fault in index.published.values() for row in _of_fault(fault, index, shares, kept))
    return tuple(sorted(rows, key=lambda row: (row.seen, row.case)))


def _of_fault(fault: Fault, index: Index, shares: FaultShares, kept: Kept | None) -> Iterator[ReplayRow]:
    groups = counted(fault, index.cases_by_fault.get(fault.id, ()), index.base)
    dated = [(case.seen, case, cause) for cause, cases in groups.items() for case in cases if case.seen is not None]
    if not dated or any(gaps(fault, index.base.club)):
        return
    dated.sort(key=lambda each: (each[0], each[1].id))
    told = _told(fault, dated, index, kept)
    for (seen, case, cause), advice in zip(dated, told, strict=True):
        yield ReplayRow(
            case=case.id,
            seen=seen,
            fault=fault.id,
            cause=UNLISTED if advice.cause == len(advice.shares) - 1 else cause,
            fault_share=shares.of(case),
            advice=advice,
            paid=_paid(case),
        )


def _told(fault: Fault, dated: Sequence[tuple[dt.date, Case, str]], index: Index, kept: Kept | None) -> list[Advice]:
    key = None if kept is None else kept.key(fault, (case for _, case, _ in dated))
    told = None if kept is None or key is None else kept.known(key)
    if told is None:
        turned = [Turned(day=seen.toordinal(), bike=machine_of(case), cause=cause) for seen, case, cause in dated]
        told = list(advice_of(problem_of(fault, index), turned))
        if kept is not None and key is not None:
            kept.keep(key, told)
    return told


def _paid(case: Case) -> float | None:
    paid = case.outcome.paid
    if paid is None or (paid.parts is None and paid.labour is None):
        return None
    return (paid.parts or 0.0) + (paid.labour or 0.0)
