"""Pairs that `distinct_from` tells apart, and which of them have come together since."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import DistinctFrom, Fault
from kbtools.similarity.engine import Match
from kbtools.similarity.faults import matcher
from kbtools.similarity.features import Readier

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
    match: Match
    """How the two compare."""


def no_longer_apart(base: KnowledgeBase) -> Iterator[Told]:
    """Rows about entries that have become nearly the same. Of two entries that name each other, both rows."""
    heirs = {old: fault.id for fault in base.faults.values() for old in fault.formerly}
    living = {fault.id: fault for fault in base.faults.values() if fault.withdrawn is None}
    rows = [
        (fault, row, other)
        for fault in living.values()
        for row in fault.distinct_from
        if (other := living.get(heirs.get(row.fault, row.fault))) is not None and other is not fault
    ]
    if not rows:
        return
    readier = Readier(base, list(living.values()))
    compare = matcher(readier.lexicon).compare
    for fault, row, other in rows:
        match = compare(readier.ready(fault), readier.ready(other))
        if match.score >= NEAR_IDENTICAL:
            yield Told(fault=fault, row=row, other=other, match=match)
