"""A row for each counted case of a published fault: what the cases seen before it would have said to it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from kbtools.checkplan.problem import gaps
from kbtools.index.answers import Index
from kbtools.index.cases import counted
from kbtools.model.case import UNLISTED, Case
from kbtools.model.fault import Fault
from kbtools.model.memory import Memory
from kbtools.replay.advice import Advice
from kbtools.replay.fault_share import FaultShares
from kbtools.replay.kept import Dated, said


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
    dated = {fault.id: found for fault in index.published.values() if (found := _dated(fault, index))}
    rows = (
        _row(fault_id, case, advice, shares)
        for fault_id, told in said(dated, index, memory)
        for case, advice in zip(dated[fault_id], told, strict=True)
    )
    return tuple(sorted(rows, key=lambda row: (row.seen, row.case)))


def _dated(fault: Fault, index: Index) -> list[Dated]:
    """The counted cases of a fault that say when they were seen, by that day; none where there is no plan."""
    groups = counted(fault, index.cases_by_fault.get(fault.id, ()), index.base)
    dated = [
        Dated(seen=case.seen, case=case, cause=cause)
        for cause, cases in groups.items()
        for case in cases
        if case.seen is not None
    ]
    if not dated or any(gaps(fault, index.base.club)):
        return []
    return sorted(dated, key=lambda each: (each.seen, each.case.id))


def _row(fault_id: str, dated: Dated, advice: Advice, shares: FaultShares) -> ReplayRow:
    return ReplayRow(
        case=dated.case.id,
        seen=dated.seen,
        fault=fault_id,
        cause=UNLISTED if advice.cause == len(advice.shares) - 1 else dated.cause,
        fault_share=shares.of(dated.case),
        advice=advice,
        paid=_paid(dated.case),
    )


def _paid(case: Case) -> float | None:
    paid = case.outcome.paid
    if paid is None or (paid.parts is None and paid.labour is None):
        return None
    return (paid.parts or 0.0) + (paid.labour or 0.0)
