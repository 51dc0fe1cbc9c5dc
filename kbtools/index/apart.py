"""Which pairs of faults are told apart under `distinct_from`, by either of the two, whatever their state.

- `told_apart`: the comparison of entries. An old id stands for its heir.
- `told_apart_as_written`: the rules. Naming an old id is a mistake of its own (KB310).
"""

from __future__ import annotations

from collections.abc import Set

from kbtools.index.entries import faults
from kbtools.index.heirs import heirs
from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase

PairOfIds = frozenset[str]
"""Ids of two faults; of one where an entry tells itself apart from itself."""


@per_base
def told_apart(base: KnowledgeBase) -> Set[PairOfIds]:
    """The pairs, old ids followed."""
    now = heirs(base)
    return {
        frozenset({fault.id, now.get(row.fault, row.fault)}) for fault in faults(base) for row in fault.distinct_from
    }


@per_base
def told_apart_as_written(base: KnowledgeBase) -> Set[PairOfIds]:
    """The pairs, by the ids that stand there."""
    return {frozenset({fault.id, row.fault}) for fault in faults(base) for row in fault.distinct_from}
