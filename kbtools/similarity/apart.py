"""Pairs that `distinct_from` tells apart, and which of them have come together since."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from kbtools.index.entries import living
from kbtools.index.heirs import heirs
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import DistinctFrom, Fault
from kbtools.model.memory import Memory
from kbtools.similarity.comparison import Comparison, comparison, dropped
from kbtools.similarity.engine import Match

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


def no_longer_apart(base: KnowledgeBase, memory: Memory | None = None) -> Iterator[Told]:
    """Rows about entries that have become nearly the same. Of two entries that name each other, both rows.

    The comparison is handed to the memory and let go then: who looks for pairs does that first. A memory changes
    nothing but the time it takes.
    """
    old, known = heirs(base), living(base)
    rows = [
        (fault, row, other)
        for fault in known.values()
        for row in fault.distinct_from
        if (other := known.get(old.get(row.fault, row.fault))) is not None and other is not fault
    ]
    if rows:
        compared = comparison(base, memory)
        numbers = {fault.id: number for number, fault in enumerate(compared.faults)}
        asked = [[numbers[fault.id], numbers[other.id]] for fault, _, other in rows]
        # Their own scores, whatever their neighbours say: named by the rows, since these are not compared otherwise.
        name = f"told apart {json.dumps(asked)}"
        matches = compared.came_out(name, lambda: _matches(compared, asked), _as_rows, _of_rows)
        for (fault, row, other), match in zip(rows, matches, strict=True):
            if match.score >= NEAR_IDENTICAL:
                yield Told(fault=fault, row=row, other=other, match=match)
    dropped(base)


def _matches(compared: Comparison, asked: Iterable[Sequence[int]]) -> list[Match]:
    return [compared.scores.compare(left, right) for left, right in asked]


def _as_rows(matches: Iterable[Match]) -> list[Any]:
    return [[each.score, each.fields] for each in matches]


def _of_rows(rows: Any) -> list[Match]:
    return [Match(score=score, fields=dict(fields)) for score, fields in rows]
