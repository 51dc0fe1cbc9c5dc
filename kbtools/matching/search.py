"""Finds the pairs of records that match: candidates by blocks, then the comparison."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from kbtools.matching.blocking import Blocks, Limits
from kbtools.matching.engine import Match, Matcher

R = TypeVar("R")
Watch = Callable[[Iterable[int]], Iterable[int]]
"""Passes the numbers of the records through, and may tell somebody how far it has come."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Two records that match."""

    left: int
    """Number of the earlier record."""
    right: int
    """Number of the later record."""
    match: Match
    """How they compare."""


def find_pairs(
    records: Sequence[R],
    keys: Sequence[Iterable[Hashable]],
    matcher: Matcher[R],
    *,
    least: float,
    only: Iterable[int] | None = None,
    limits: Limits = Limits(),  # noqa: B008 (frozen)
    watch: Watch = iter,
) -> list[Found]:
    """The pairs that score at least so much, best first.

    Args:
        records: ready to be compared.
        keys: of each record, by which its candidates are found.
        matcher: the comparison.
        least: the score from which a pair is given.
        only: the records of which one must be in each pair; None: all.
        limits: what bounds the work.
        watch: sees the numbers of the records go by.
    """
    blocks = Blocks(keys, limits)
    found = []
    for left, right in blocks.pairs(watch(range(len(records)) if only is None else only)):
        if matcher.score(records[left], records[right], least) >= least:
            found.append(Found(left=left, right=right, match=matcher.compare(records[left], records[right])))
    return sorted(found, key=lambda each: (-each.match.score, each.left, each.right))
