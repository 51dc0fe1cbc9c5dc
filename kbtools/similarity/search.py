"""Finds the pairs of records that match: candidates by blocks, then the comparison."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from kbtools.similarity.blocking import Blocks, Limits
from kbtools.similarity.engine import Match, Matcher

R = TypeVar("R")
Watch = Callable[[Iterable[int]], Iterable[int]]
"""Passes the numbers of the records through, and may tell somebody how far it has come."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchedPair:
    """Two records that match."""

    left: int
    """Number of the earlier record."""
    right: int
    """Number of the later record."""
    match: Match
    """How they compare."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Search:
    """What is looked for, and how."""

    least: float
    """The score from which a pair is given."""
    limits: Limits = Limits()  # noqa: RUF009 (frozen)
    """What bounds the work."""
    watch: Watch = iter
    """Sees the numbers of the records go by."""


def find_pairs(
    records: Sequence[R], keys: Sequence[Iterable[Hashable]], matcher: Matcher[R], search: Search
) -> list[MatchedPair]:
    """The pairs that are looked for, best first.

    Args:
        records: ready to be compared.
        keys: of each record, by which its candidates are found.
        matcher: the comparison.
        search: what is looked for.
    """
    blocks = Blocks(keys, search.limits)
    found = []
    for left, right in blocks.pairs(search.watch(range(len(records)))):
        if matcher.score(records[left], records[right], search.least) >= search.least:
            found.append(MatchedPair(left=left, right=right, match=matcher.compare(records[left], records[right])))
    return sorted(found, key=lambda each: (-each.match.score, each.left, each.right))
