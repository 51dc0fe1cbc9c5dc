"""Which cases that came in lately turned what a fault's page says first: the first step, or the likeliest cause.

Worked out from the days on which cases were seen: the plan with a case and all before it, held against the plan without
it. The entry itself is taken as it is today. A share that moves a little is no news, and is not told.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Final

from kbtools.changes.advice import plans, reckoned_with
from kbtools.evidence import evidence_by
from kbtools.index.answers import Index
from kbtools.model.fault import Fault

DAYS: Final = 90
"""So far back cases are looked at: each takes a plan of its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """What a case has turned. Of each pair the first is what was said without it, the second what is said with it."""

    case: str
    """Id of the case."""
    fault: str
    """Id of its fault, as it is today."""
    seen: dt.date
    """Day of the case."""
    first: tuple[str | None, str | None]
    """`kind:id` of the first step (`check`, `trial_fix`, `fix`; `hand_over` has no id); equal where it stayed."""
    likeliest: tuple[str | None, str | None]
    """Id of the likeliest listed cause; equal where it stayed."""


def turns(index: Index, today: dt.date, days: int = DAYS) -> Mapping[str, Turn]:
    """Id of a case → what it has turned, of the cases seen in the last days; those that turned nothing are missing.

    Args:
        index: of the base for today.
        today: from which is counted back.
        days: how far.
    """
    since = today - dt.timedelta(days=days)
    return {turn.case: turn for fault in index.published.values() for turn in _of_fault(fault, index, since)}


def _of_fault(fault: Fault, index: Index, since: dt.date) -> Iterator[Turn]:
    cases = index.cases_by_fault.get(fault.id, ())
    recent = [(case, case.seen) for case in cases if case.seen is not None and since <= case.seen]
    club = index.base.club
    problem = reckoned_with(fault, index) if recent and club is not None else None
    if problem is None or club is None:
        return
    left = list(cases)
    evidence, now = problem.evidence, None
    for case, seen in recent:
        left.remove(case)
        earlier = evidence_by(left, fault, index, club)
        if earlier == evidence:
            continue
        now = plans(replace(problem, evidence=evidence)) if now is None else now
        before = plans(replace(problem, evidence=earlier))
        if (before.first, before.likeliest) != (now.first, now.likeliest):
            yield Turn(
                case=case.id,
                fault=fault.id,
                seen=seen,
                first=(before.first, now.first),
                likeliest=(before.likeliest, now.likeliest),
            )
        evidence, now = earlier, before
