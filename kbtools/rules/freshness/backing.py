"""What carries an entry beside its curator's word: cases that count, and sources that answer for what they say."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import UNLISTED, Case
from kbtools.model.fault import Fault
from kbtools.rules.common import safety_critical

HEARSAY = frozenset({"forum", "article"})
"""Kinds of sources that repeat what somebody said; the others measured it themselves or answer for it."""

ENOUGH = 3
"""Counted cases, of bikes that nobody picked, that carry an entry without any better source. No source: a choice."""


@per_base
def counted(base: KnowledgeBase) -> Mapping[str, Sequence[Case]]:
    """Fault id → its cases that count as evidence.

    A case counts if it is solved with a listed cause or `unlisted`, was ridden as far since as the club asks or was
    verified, and no later case follows it. Old ids of a fault are not followed: naming one is an error.
    """
    followed = {case.follows for case in base.cases.values() if case.follows is not None}
    found: dict[str, list[Case]] = {}
    for case in base.cases.values():
        fault = base.faults.get(case.fault or "")
        if fault is not None and case.id not in followed and _counts(case, fault, base):
            found.setdefault(fault.id, []).append(case)
    return found


@per_base
def cases_known(base: KnowledgeBase) -> bool:
    """Whether it can be told which cases count: one that is not read whole may be of any fault, and may count."""
    lost = (each for case in base.cases.values() for each in case.damaged)
    return base.club is not None and not any(each in {"", "/fault"} or each.startswith("/outcome") for each in lost)


def _counts(case: Case, fault: Fault, base: KnowledgeBase) -> bool:
    cause = case.outcome.cause
    listed = cause is not None and (cause == UNLISTED or fault.cause(cause) is not None)
    return listed and case.outcome.is_solved(base.club.solved_after if base.club is not None else None)


def critical(base: KnowledgeBase) -> Iterator[Fault]:
    """The published faults with a fix that is work on a safety-critical system."""
    for fault in base.faults.values():
        if fault.published and any(
            cause.fix is not None and safety_critical(base, fault, cause) for cause in fault.causes
        ):
            yield fault


def thread_alone(base: KnowledgeBase, fault: Fault) -> bool:
    """Whether nothing but forum threads is behind an entry: no other source, and no counted case from elsewhere."""
    if (
        not cases_known(base)
        or not fault.sources
        or not fault.intact("/sources")
        or any(each.kind != "forum" for each in fault.sources)
    ):
        return False
    return all(case.source is not None and case.source.kind == "forum" for case in counted(base).get(fault.id, ()))
