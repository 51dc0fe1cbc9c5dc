"""Pairs that `distinct_from` tells apart, and which of them have come together since."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kbtools.duplicates.faults import matcher
from kbtools.duplicates.readied import Readier
from kbtools.matching.engine import Match
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import DistinctFrom, Fault

NEAR_IDENTICAL = 0.85
"""Score from which two entries say nearly word for word the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A row of `distinct_from` that no longer holds."""

    fault: Fault
    """The entry that has the row."""
    row: DistinctFrom
    """The row."""
    other: Fault
    """The entry that it names; by an old id, its heir."""
    match: Match | None
    """How they compare, where both are still there; None: the other one has been withdrawn."""


def no_longer_apart(base: KnowledgeBase) -> Iterator[Told]:
    """Rows that name a withdrawn entry, and rows about entries that have become nearly the same."""
    heirs = {old: fault.id for fault in base.faults.values() for old in fault.formerly}
    rows = [
        (fault, row, other)
        for fault in base.faults.values()
        if fault.withdrawn is None
        for row in fault.distinct_from
        if (other := base.faults.get(heirs.get(row.fault, row.fault))) is not None and other is not fault
    ]
    if not rows:
        return
    readier = Readier(base, [fault for fault in base.faults.values() if fault.withdrawn is None])
    compare = matcher(readier.lexicon).compare
    for fault, row, other in rows:
        if other.withdrawn is not None:
            yield Told(fault=fault, row=row, other=other, match=None)
            continue
        match = compare(readier.ready(fault), readier.ready(other))
        if match.score >= NEAR_IDENTICAL:
            yield Told(fault=fault, row=row, other=other, match=match)
