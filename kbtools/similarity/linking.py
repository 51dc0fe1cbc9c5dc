"""Records that are the same thing come in groups, and what each pair scores is looked at together.

If two records are twins and a third contradicts one of them, it is no twin of the other either, however little that
one says; and if it agrees with both, a short third record needs less of its own. So groups are joined in steps, best
first, by the mean score of all pairs between them (average linkage: R. R. Sokal and C. D. Michener, 1958); a pair's
score is then the mean at which its two groups became one. A pair that has no neighbours keeps its own.

A pair that scores nothing at all cannot be one thing, and no group ever holds both (a cannot-link constraint:
K. Wagstaff and C. Cardie, 2000): two entries that are alike otherwise would outvote the one word that parts them.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Iterable, Mapping
from typing import Final

Edge = tuple[int, int]
"""Two records, the lower number first."""

_LARGEST: Final = 60
"""Groups are not joined to more records than this: so many doubles of one record are a fault of the input, and what
is still unknown between two groups has to be compared pair by pair."""


class _Groups:
    """The groups as they stand, and the sum of the scores between each two that have met."""

    __slots__ = ("_queue", "_score", "_sums", "members")

    def __init__(self, edges: Mapping[Edge, float], score: Callable[[int, int], float]) -> None:
        self._score = score
        self.members: dict[int, list[int]] = {}
        self._sums: dict[int, dict[int, float]] = {}
        self._queue: list[tuple[float, int, int]] = []
        for (left, right), value in sorted(edges.items()):
            for each in (left, right):
                self.members.setdefault(each, [each])
            self._sums.setdefault(left, {})[right] = value
            self._sums.setdefault(right, {})[left] = value
            self._queue.append((-value, left, right))
        heapq.heapify(self._queue)

    def steps(self, least: float) -> Iterable[tuple[float, list[int], list[int]]]:
        """Each join: the mean, and the members of both groups. Means fall from step to step or stay."""
        following = max(self.members, default=0) + 1
        while self._queue:
            loss, left, right = heapq.heappop(self._queue)
            if -loss < least:
                return
            if left not in self.members or right not in self.members:
                continue
            one, other = self.members[left], self.members[right]
            if len(one) + len(other) > _LARGEST:
                continue
            yield -loss, one, other
            self._join(left, right, following)
            following += 1

    def _join(self, left: int, right: int, joined: int) -> None:
        one, other = self.members.pop(left), self.members.pop(right)
        mine, theirs = self._sums.pop(left), self._sums.pop(right)
        self.members[joined] = one + other
        self._sums[joined] = {}
        for third in sorted((mine.keys() | theirs.keys()) - {left, right}):
            members = self.members.get(third)
            if members is None:
                continue
            total = self._between(mine.get(third), one, members) + self._between(theirs.get(third), other, members)
            for gone in (left, right):
                self._sums[third].pop(gone, None)
            self._sums[third][joined] = self._sums[joined][third] = total
            mean = total / (len(members) * len(self.members[joined]))
            heapq.heappush(self._queue, (-mean, third, joined))

    def _between(self, known: float | None, one: Iterable[int], other: Iterable[int]) -> float:
        if known is not None:
            return known
        total = 0.0
        for left in one:
            for right in other:
                score = self._score(min(left, right), max(left, right))
                if score <= 0.0:
                    return -math.inf
                total += score
        return total


def linked(edges: Mapping[Edge, float], score: Callable[[int, int], float], least: float) -> dict[Edge, float]:
    """What each pair scores when its neighbours are heard.

    Args:
        edges: pairs that have been compared, with their own scores; all that score `least` or more.
        score: compares two records that have not been; 0: they cannot be one.
        least: groups are joined down to this mean.

    Returns:
        Every pair within a group, and those of `edges` that are in none: these keep their own score, but stay below
        `least`.
    """
    found: dict[Edge, float] = {}
    for mean, one, other in _Groups(edges, score).steps(least):
        found |= {(min(left, right), max(left, right)): min(1.0, mean) for left in one for right in other}
    below = least - 1e-9
    return found | {pair: min(value, below) for pair, value in edges.items() if pair not in found}
