"""Finds the pairs that are worth comparing, without comparing every record with every other.

Each record gives keys (a rare word, two words of its title, a code, …). Records that share keys are candidates; rare
keys count for more. A key that too many records share tells nothing and is passed over, and each record keeps its best
candidates only, so that work and memory grow with the number of records and not with its square.
"""

from __future__ import annotations

import heapq
import math
from collections import defaultdict
from collections.abc import Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What bounds the work."""

    crowd: int = 12
    """A key that more records share is passed over."""
    best: int = 12
    """So many candidates of each record are kept."""


class Blocks:
    """The records by their keys."""

    __slots__ = ("_keys", "_limits", "_weights", "_with")

    def __init__(self, keys: Sequence[Iterable[Hashable]], limits: Limits) -> None:
        """Sort records into blocks.

        Args:
            keys: of each record.
            limits: what bounds the work.
        """
        self._limits = limits
        having: defaultdict[Hashable, list[int]] = defaultdict(list)
        for record, own in enumerate(keys):
            for key in dict.fromkeys(own):
                having[key].append(record)
        self._with = {key: found for key, found in having.items() if 1 < len(found) <= limits.crowd}
        self._keys = [[key for key in dict.fromkeys(own) if key in self._with] for own in keys]
        every = len(keys) + 1
        self._weights = {key: math.log(every / len(found)) for key, found in self._with.items()}

    def candidates(self, record: int) -> list[int]:
        """The records that share most with one, best first."""
        votes: defaultdict[int, float] = defaultdict(float)
        for key in self._keys[record]:
            weight = self._weights[key]
            for other in self._with[key]:
                votes[other] += weight
        votes.pop(record, None)
        best = heapq.nsmallest(self._limits.best, votes.items(), key=lambda each: (-each[1], each[0]))
        return [other for other, _ in best]

    def pairs(self, records: Iterable[int]) -> Iterator[tuple[int, int]]:
        """Every pair of candidates of these records once, the lower number first."""
        given: set[tuple[int, int]] = set()
        for record in records:
            for other in self.candidates(record):
                pair = (record, other) if record < other else (other, record)
                if pair not in given:
                    given.add(pair)
                    yield pair
