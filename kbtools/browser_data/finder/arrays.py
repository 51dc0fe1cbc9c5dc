"""Rows of numbers as arrays, so that what is done with millions of them is done at once."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

Ints: TypeAlias = npt.NDArray[np.int64]
SmallInts: TypeAlias = npt.NDArray[np.int32]
Floats: TypeAlias = npt.NDArray[np.float64]
Bools: TypeAlias = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """Rows of different lengths, one behind the other."""

    starts: Ints
    """Where each row begins, and where the last one ends."""
    values: Ints
    """All numbers."""

    def of(self, numbers: Ints) -> tuple[Ints, Ints]:
        """The values of these rows one behind the other, and of each value which of `numbers` its row is."""
        values, lengths = self.those(numbers)
        return values, np.repeat(np.arange(len(numbers)), lengths)

    def those(self, numbers: Ints) -> tuple[Ints, Ints]:
        """The values of these rows one behind the other, and how many each has."""
        at, lengths = self.at(numbers)
        return self.values[at], lengths

    def at(self, numbers: Ints) -> tuple[Ints, Ints]:
        """Where the values of these rows stand, and how many each has."""
        first = self.starts[numbers]
        lengths = self.starts[numbers + 1] - first
        at = np.repeat(first - np.cumsum(lengths) + lengths, lengths)
        at += np.arange(len(at))
        return at, lengths


def rows_of(lists: Iterable[Sequence[int]]) -> Rows:
    """Lists as rows."""
    kept = list(lists)
    values = np.fromiter(itertools.chain.from_iterable(kept), np.int64)
    return Rows(starts=starts_of(ints(map(len, kept))), values=values)


def starts_of(lengths: Ints) -> Ints:
    """Where rows of such lengths begin that lie one behind the other, and where the last one ends."""
    starts = np.zeros(len(lengths) + 1, np.int64)
    np.cumsum(lengths, out=starts[1:])
    return starts


def ints(numbers: Iterable[int]) -> Ints:
    """Whole numbers as an array."""
    return np.fromiter(numbers, np.int64)


def firsts(rising: Ints) -> Ints:
    """Where each number stands first among numbers that never fall."""
    new = np.ones(len(rising), np.bool_)
    np.not_equal(rising[1:], rising[:-1], out=new[1:])
    return np.flatnonzero(new)


def added_up(keys: Ints, amounts: Ints) -> tuple[Ints, Ints]:
    """Each key once, rising, and the sum of its amounts, none of them below 0."""
    # Numbers by themselves are sorted ten times as fast as the places where they stand.
    step = int(amounts.max(initial=0)) + 1
    every = keys * step
    every += amounts
    every.sort()
    keys = every // step
    first = firsts(keys)
    every %= step
    return keys[first], np.add.reduceat(every, first) if len(first) else every
