"""Rows of numbers as arrays, so that what is done with millions of them is done at once."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

Ints: TypeAlias = npt.NDArray[np.int64]
Floats: TypeAlias = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """Rows of different lengths, one behind the other."""

    starts: Ints
    """Where each row begins, and where the last one ends."""
    values: Ints
    """All numbers."""

    def of(self, numbers: Ints) -> tuple[Ints, Ints]:
        """The values of these rows one behind the other, and of each value which of `numbers` its row is."""
        first = self.starts[numbers]
        lengths = self.starts[numbers + 1] - first
        row = np.repeat(np.arange(len(numbers)), lengths)
        behind = np.cumsum(lengths) - lengths
        return self.values[np.arange(len(row)) + np.repeat(first - behind, lengths)], row


def rows_of(lists: Iterable[Sequence[int]]) -> Rows:
    """Lists as rows."""
    kept = list(lists)
    starts = np.zeros(len(kept) + 1, np.int64)
    np.cumsum([len(each) for each in kept], out=starts[1:])
    values = np.fromiter(itertools.chain.from_iterable(kept), np.int64, count=int(starts[-1]))
    return Rows(starts=starts, values=values)


def ints(numbers: Iterable[int]) -> Ints:
    """Whole numbers as an array."""
    return np.fromiter(numbers, np.int64)


def added_up(keys: Ints, amounts: Floats | Ints) -> tuple[Ints, Floats]:
    """Each key once, rising, and the sum of its amounts; they are added in the order in which they stand."""
    found, which = np.unique(keys, return_inverse=True)
    return found, np.bincount(which, weights=amounts, minlength=len(found)).astype(np.float64)
