"""Finds the pairs that are worth comparing, without comparing every record with every other.

Each record gives keys (a rare word, two words of its title, a code, …). Records that share keys are candidates; rare
keys count for more. A key that too many records share tells nothing and is passed over, and each record keeps its best
candidates only, so that work and memory grow with the number of records and not with its square.

A large base has millions of keys: they are numbers in one array here, and never objects of their own.
"""

from __future__ import annotations

import math
from array import array
from collections.abc import Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Numbers = npt.NDArray[np.int32]

_TOGETHER: Final = 512
"""Records whose candidates are looked for at once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What bounds the work."""

    crowd: int = 12
    """A key that more records share is passed over."""
    best: int = 12
    """So many candidates of each record are kept."""


class Blocks:
    """The records by their keys."""

    def __init__(self, keys: Sequence[Iterable[Hashable]], limits: Limits) -> None:
        """Sort records into blocks.

        Args:
            keys: of each record; numbers of 64 bits (`array` of type `Q`), each once, are taken as they are.
            limits: what bounds the work.
        """
        # A check that compares nothing does without it.
        import numpy as np  # noqa: PLC0415

        self._np: Final = np
        self._limits = limits
        self._records: Final = len(keys)
        self._last: tuple[int, list[int], list[int]] = (-1, [], [])
        numbers, owners = self._flat(keys)
        # Stable, so that the records of a key stand in their order.
        by_key = np.argsort(numbers, kind="stable")
        numbers = numbers[by_key]
        starts = np.flatnonzero(np.concatenate(([True], numbers[1:] != numbers[:-1]))) if len(numbers) else by_key[:0]
        sizes = np.diff(starts, append=len(numbers))
        kept = (sizes > 1) & (sizes <= limits.crowd)
        at = by_key[np.repeat(kept, sizes)]
        self._sizes = sizes[kept]
        self._starts = np.cumsum(self._sizes) - self._sizes
        self._members = owners[at]
        # Of each record the keys that are left, in the order in which it gave them.
        in_order = np.argsort(at)
        self._keys = np.repeat(np.arange(len(self._sizes)), self._sizes)[in_order]
        self._bounds = np.searchsorted(owners[at[in_order]], np.arange(self._records + 1))
        every = self._records + 1
        self._weights = np.array([math.log(every / max(1, size)) for size in range(limits.crowd + 1)])[self._sizes]

    def candidates(self, record: int) -> list[int]:
        """The records that share most with one, best first."""
        batch, at = divmod(record, _TOGETHER)
        if self._last[0] != batch:
            self._last = (batch, *self._best_of(batch))
        _, bounds, others = self._last
        return others[bounds[at] : bounds[at + 1]]

    def pairs(self, records: Iterable[int]) -> Iterator[tuple[int, int]]:
        """Every pair of candidates of these records once, the lower number first."""
        given: set[tuple[int, int]] = set()
        for record in records:
            for other in self.candidates(record):
                pair = (record, other) if record < other else (other, record)
                if pair not in given:
                    given.add(pair)
                    yield pair

    def _flat(self, keys: Sequence[Iterable[Hashable]]) -> tuple[npt.NDArray[Any], Numbers]:
        """All keys as numbers, and whose each is."""
        np, known = self._np, dict[Hashable, int]()
        own = [each if isinstance(each, array) else _numbered(each, known) for each in keys]
        numbers = np.concatenate([np.frombuffer(each, np.uint64) for each in own]) if own else np.zeros(0, np.uint64)
        return numbers, np.repeat(np.arange(len(own), dtype=np.int32), [len(each) for each in own])

    def _best_of(self, batch: int) -> tuple[list[int], list[int]]:
        """The best candidates of some records in a row: where each one's begin, and all of them."""
        np = self._np
        first = batch * _TOGETHER
        last = min(first + _TOGETHER, self._records)
        bounds = self._bounds[first : last + 1]
        keys = self._keys[bounds[0] : bounds[-1]]
        sizes = self._sizes[keys]
        within = np.arange(sizes.sum()) - np.repeat(np.cumsum(sizes) - sizes, sizes)
        others = self._members[np.repeat(self._starts[keys], sizes) + within]
        owners = np.repeat(np.repeat(np.arange(last - first), np.diff(bounds)), sizes)
        pairs, which = np.unique(owners * self._records + others, return_inverse=True)
        # Summed one by one in the order of the keys: two sums of the same weights in one order are the same.
        votes = np.bincount(which, np.repeat(self._weights[keys], sizes), len(pairs))
        owners, others = np.divmod(pairs, max(1, self._records))
        elsewhere = owners + first != others
        owners, others, votes = owners[elsewhere], others[elsewhere], votes[elsewhere]
        order = np.lexsort((others, -votes, owners))
        owners, others = owners[order], others[order]
        place = np.arange(len(owners)) - np.searchsorted(owners, owners)
        best = place < self._limits.best
        counts = np.bincount(owners[best], minlength=last - first)
        return [0, *np.cumsum(counts).tolist()], others[best].tolist()


def _numbered(keys: Iterable[Hashable], known: dict[Hashable, int]) -> array[int]:
    return array("Q", [known.setdefault(key, len(known)) for key in dict.fromkeys(keys)])
