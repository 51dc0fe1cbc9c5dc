"""Which cases that came in lately turned what a fault's page says first: the first step, or the likeliest cause.

Worked out from the days on which cases were seen: the plan with a case and all before it, held against the plan without
it. The entry itself is taken as it is today. A share that moves a little is no news, and is not told.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from kbtools.changes.advice import plans, reckoned_with
from kbtools.evidence import evidence_by
from kbtools.index.answers import Index
from kbtools.index.sources import SourceDigests
from kbtools.model.batches import in_batches
from kbtools.model.fault import Fault
from kbtools.model.memory import Memory

_WORK: Final = "turned by cases"
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


def turns(index: Index, today: dt.date, days: int = DAYS, memory: Memory | None = None) -> Mapping[str, Turn]:
    """Id of a case → what it has turned, of the cases seen in the last days; those that turned nothing are missing.

    Args:
        index: of the base for today.
        today: from which is counted back.
        days: how far.
        memory: asked first about faults of which nothing has changed; None: all is worked out.
    """
    since = today - dt.timedelta(days=days)
    digests = SourceDigests(index)
    recent = {
        fault: digests.of(index.published[fault], cases, since)
        for fault, cases in index.cases_by_fault.items()
        if cases[0].seen is not None and since <= cases[0].seen
    }

    def make(fault: str) -> list[Turn]:
        return list(_of_fault(index.published[fault], index, since))

    found = dict(in_batches(memory, _WORK, recent, make, (_written, _read)))
    return {turn.case: turn for fault in index.published for turn in found.get(fault, ())}


def _written(found: Sequence[Turn]) -> list[list[object]]:
    return [[each.case, each.seen.toordinal(), each.first, each.likeliest] for each in found]


def _read(fault: str, rows: Any) -> list[Turn]:
    return [
        Turn(
            case=str(case),
            fault=fault,
            seen=dt.date.fromordinal(seen),
            first=_pair(*first),
            likeliest=_pair(*likeliest),
        )
        for case, seen, first, likeliest in rows
    ]


def _pair(before: str | None, now: str | None) -> tuple[str | None, str | None]:
    """As it was kept.

    Raises:
        ValueError: it was not.
    """
    if not {type(before), type(now)} <= {str, type(None)}:
        raise ValueError
    return before, now


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
