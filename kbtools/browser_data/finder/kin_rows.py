"""The kin of texts as arrays: what their phrases lead to, but for what they say themselves; the surest way counts."""

from __future__ import annotations

import numpy as np

from kbtools.browser_data.finder.arrays import Ints, Rows, SmallInts, starts_of
from kbtools.browser_data.finder.columns import Columns
from kbtools.browser_data.finder.kin import KinOf
from kbtools.browser_data.finder.texts import Texts

_TEXTS_AT_ONCE = 2048


class KinRows:
    """Of each use of a text the columns that it leads to, some columns at a time."""

    def __init__(self, uses: Ints, texts: Texts, kin: KinOf) -> None:
        """`uses`: the numbers of the texts, in whatever order and as often as they are used."""
        numbers, which = np.unique(uses, return_inverse=True)
        self._which = which.reshape(-1)
        self._numbers = numbers
        self._own = texts.own()
        written = list(texts.numbers)
        self._ways = kin.ways([written[number] for number in numbers.tolist()])
        self.columns = Columns(kin, texts)
        self._width = max(1, self.columns.many)
        self._columns_of = Rows(starts=np.zeros(1, np.int64), values=np.zeros(0, np.int64))
        self._levels_of = self._columns_of

    def cut(self, width: int) -> int:
        """Cut the columns into parts of such a width; gives how many parts there are."""
        self._width = width
        parts = [self._merged(first) for first in range(0, len(self._numbers), _TEXTS_AT_ONCE)]
        starts = starts_of(np.concatenate([np.zeros(0, np.int64), *(lengths for lengths, *_ in parts)]))
        none = np.zeros(0, np.int32)
        self._columns_of = Rows(starts=starts, values=np.concatenate([none, *(column for _, column, _ in parts)]))
        self._levels_of = Rows(starts=starts, values=np.concatenate([none, *(level for *_, level in parts)]))
        return self._parts

    @property
    def _parts(self) -> int:
        return -(-self.columns.many // self._width)

    def part(self, number: int) -> tuple[Ints, Ints, Ints]:
        """Of one part of the columns, use by use: column in the part, level, and how many each use has."""
        rows = self._which * self._parts + number
        at, lengths = self._columns_of.at(rows)
        return self._columns_of.values[at], self._levels_of.values[at], lengths

    def _merged(self, first: int) -> tuple[Ints, SmallInts, SmallInts]:
        """Of some texts how many columns each has in each part, and of these column in the part, and level."""
        columns, levels = self.columns, self.columns.levels
        some = np.arange(first, min(len(self._numbers), first + _TEXTS_AT_ONCE))
        way, text = self._ways.of(some)
        value, of = columns.ways.of(way)
        said, says = self._own.of(self._numbers[some])
        column = columns.of_term[said]
        step = max(1, columns.many) * levels
        own = (says * step + column * levels + levels - 1)[column >= 0]
        every = np.concatenate([text[of] * step + value, own])
        every.sort()
        # What a text says itself has the highest level, and goes with whatever leads there.
        told = every // levels
        surest = np.append(told[1:] != told[:-1], np.True_)[: len(every)]
        every = every[surest & (every % levels != levels - 1)]
        text, value = np.divmod(every, step)
        column, level = np.divmod(value.astype(np.int32), np.int32(levels))
        part, column = np.divmod(column, np.int32(self._width))
        lengths = np.bincount(text * self._parts + part, minlength=len(some) * self._parts)
        return lengths, column, level
