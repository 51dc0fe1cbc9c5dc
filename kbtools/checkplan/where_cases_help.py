"""Where one more case would help most: every published fault with what is known of it and what its plan saves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kbtools.checkplan import Owner, plan_of
from kbtools.checkplan.problem import gaps, problem_of
from kbtools.evidence import Narrowing, evidence_of, narrowing
from kbtools.index.answers import Index
from kbtools.model.fault import Fault


@dataclass(frozen=True, slots=True, kw_only=True)
class EvidenceRow:
    """One fault."""

    fault: str
    """Id of the fault."""
    title: str
    """Plain text."""
    known: Narrowing
    """Counted cases, how sure the shares are, and how much one more case would narrow them."""
    currency: str
    """ISO 4217 code."""
    expected_cost: float
    """Of the plan, for an owner of whom nothing is known."""
    saving_hand_over: float
    """What the plan is expected to save beside handing over at once."""
    saving_likeliest_first: float
    """What it is expected to save beside going after the likeliest cause first."""


def evidence_rows(index: Index) -> tuple[EvidenceRow, ...]:
    """The published faults that name causes and have a plan, those first that one more case would narrow most."""
    return tuple(sorted(_rows(index), key=lambda row: (-row.known.narrowing, row.fault)))


def _rows(index: Index) -> Iterator[EvidenceRow]:
    for fault in index.published.values():
        if not fault.causes or any(gaps(fault, index.base.club)):
            continue
        problem = problem_of(fault, index)
        plan = plan_of(problem, Owner())
        cost = plan.expected_cost or 0.0
        yield EvidenceRow(
            fault=fault.id,
            title=fault.title,
            known=narrowing(problem.evidence),
            currency=plan.currency,
            expected_cost=cost,
            saving_hand_over=(plan.hand_over or 0.0) - cost,
            saving_likeliest_first=(plan.likeliest_first or 0.0) - cost,
        )


def narrowest(index: Index, most: int) -> tuple[tuple[Fault, Narrowing], ...]:
    """So many published faults, those first that one more case would narrow most; no plan is reckoned for it."""
    club = index.base.club
    if club is None:
        return ()
    known = [
        (fault, narrowing(evidence_of(fault, index, club)))
        for fault in index.published.values()
        if fault.causes and not any(gaps(fault, club))
    ]
    return tuple(sorted(known, key=lambda each: (-each[1].narrowing, each[0].id))[:most])


def evidence_row_record(row: EvidenceRow) -> dict[str, object]:
    """A row as `kbtools evidence --format json` has it; nothing is rounded."""
    return {
        "fault": row.fault,
        "cases": row.known.cases,
        "widest_interval": row.known.widest,
        "spread": row.known.spread,
        "narrowing": row.known.narrowing,
        "expected_cost": row.expected_cost,
        "currency": row.currency,
        "savings": {"hand_over": row.saving_hand_over, "likeliest_first": row.saving_likeliest_first},
    }
