"""What entries are found by beside their own words, as arrays: kin of their texts, short clauses, what they are lent.

In an entry the kin of each text counts by the text's field. All of it is done for some terms at a time, so that it
takes little room; and what a table has by term need not be sorted.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kbtools.browser_data.finder.arrays import Bools, Floats, Ints, SmallInts, firsts, rows_of
from kbtools.browser_data.finder.bm25 import WEIGHTS
from kbtools.browser_data.finder.entries import Entry
from kbtools.browser_data.finder.kin import KinOf
from kbtools.browser_data.finder.kin_rows import KinRows
from kbtools.browser_data.finder.lent import Lent
from kbtools.browser_data.finder.phrases import whole_clauses
from kbtools.browser_data.finder.texts import Texts
from kbtools.browser_data.finder.uses import Uses

FIELDS: Final = frozenset(["title", "symptoms", "meanings", "causes", "components", "reported", "checks", "signs"])
"""Fields whose kin an entry is found by."""
MOST_OFTEN: Final = 12.0
"""As how often kin counts at most: many texts that lead to a word say more than one, but not without end."""
ROOT: Final = 0.5
"""Power of the weight with which a text counts there."""
CLAUSE_FIELDS: Final = frozenset(["title", "symptoms", "reported"])
"""Fields of which a clause may be just what somebody asks."""
OF_CLAUSE: Final = 8.0
"""As how often such a clause counts."""
_CELLS_AT_ONCE: Final = 500_000
"""Entries times columns."""
_MOST_PARTS: Final = 64
"""All texts are gone through for each part: with no more parts, ten times as many entries take ten times as long."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """Of some rows of the index what entries are found by: each entry of a row once, by row, then by entry."""

    row: Ints
    """Its number."""
    place: Ints
    """Of the entry."""
    often: Floats
    """As how often it counts there."""
    factor: Floats
    """What it then weighs beside a word of the entry's own."""


class Nearby:
    """What all entries are found by.

    A row of the index is that of one term, or of several that stand in the same entries with the same weights: first
    the rows of the columns, then of each other term by itself.
    """

    def __init__(self, found: Sequence[Entry], uses: Uses, lends: Lent, texts: Texts, kin: KinOf) -> None:
        self._size = len(found)
        kinds = np.array([entry.kind for entry in found], np.str_)[uses.place]
        of_kin = uses.those((kinds != "model") & (kinds != "code") & _among(FIELDS, uses))
        self._places = of_kin.place
        self._weights = np.array([WEIGHTS.get(name, 1) for name in uses.names], np.float64)[of_kin.field]
        self._kin = KinRows(of_kin.text, texts, kin)
        self._columns = self._kin.columns
        self._roots = np.array([weight**ROOT for weight in self._columns.weights.tolist()], np.float64)
        term, place = _clauses(uses.those((kinds == "fault") & _among(CLAUSE_FIELDS, uses)), texts)
        self.row_of = self._columns.rows(len(texts.terms))
        """Of each term."""
        self._rest = _by_row(
            Near(row=self.row_of[lends.term], place=lends.place, often=lends.often, factor=lends.factor),
            Near(row=self.row_of[term], place=place, often=np.full(len(term), OF_CLAUSE), factor=np.ones(len(term))),
        )
        self._lent_factors = np.unique(self._rest.factor)
        # By level and one: that which the ways have, and then that which is lent.
        self._factors = np.concatenate([[0.0], self._columns.weights, self._lent_factors])

    def parts(self) -> Iterator[tuple[range, Near]]:
        """Some rows at a time, in their order, and what entries are found by there."""
        many = self._columns.many
        width = max(_CELLS_AT_ONCE // max(1, self._size), -(-many // _MOST_PARTS), 1)
        for number in range(self._kin.cut(width)):
            rows = range(number * width, min(number * width + width, many))
            yield rows, self._table(rows, number)
        rows = range(many, max(many, int(self.row_of.max(initial=-1)) + 1))
        here = self._lent_to(rows)
        rest = self._rest
        yield rows, Near(row=rest.row[here], place=rest.place[here], often=rest.often[here], factor=rest.factor[here])

    def _table(self, rows: range, number: int) -> Near:
        """A table of all entries and some columns, first its kin, then what is lent and weighs more."""
        size = len(rows) * self._size
        column, level, lengths = self._kin.part(number)
        cell = column.astype(np.int64)
        cell *= self._size
        cell += np.repeat(self._places, lengths)
        # In the order of the texts, so that the sums are those of adding one after another.
        often = np.bincount(cell, np.repeat(self._weights, lengths) * self._roots[level], size).astype(np.float64)
        np.minimum(often, MOST_OFTEN, out=often)
        top = np.zeros(size, np.int32)
        np.maximum.at(top, cell, level + 1)
        self._lend(rows, often, top)
        found = np.flatnonzero(top)
        row, place = np.divmod(found, self._size)
        return Near(row=row + rows.start, place=place, often=often[found], factor=self._factors[top[found]])

    def _lend(self, rows: range, often: Floats, top: SmallInts) -> None:
        here = self._lent_to(rows)
        cell = (self._rest.row[here] - rows.start) * self._size + self._rest.place[here]
        lent_often, lent_factor = self._rest.often[here], self._rest.factor[here]
        more = lent_often * lent_factor > often[cell] * self._factors[top[cell]]
        often[cell[more]] = lent_often[more]
        top[cell[more]] = np.searchsorted(self._lent_factors, lent_factor[more]) + len(self._columns.weights) + 1

    def _lent_to(self, rows: range) -> slice:
        low, high = np.searchsorted(self._rest.row, [rows.start, rows.stop])
        return slice(int(low), int(high))


def _among(names: Collection[str], uses: Uses) -> Bools:
    return np.array([name in names for name in uses.names], np.bool_)[uses.field]


def _clauses(uses: Uses, texts: Texts) -> tuple[Ints, Ints]:
    """Terms of the short clauses of entries and places of these, each clause of an entry once."""
    numbers, which = np.unique(uses.text, return_inverse=True)
    written, terms = list(texts.numbers), texts.terms
    rows = rows_of([terms[each] for each in whole_clauses(written[number])] for number in numbers.tolist())
    term, use = rows.of(which.reshape(-1))
    keys = uses.place[use] * max(1, len(terms)) + term
    keys.sort()
    place, term = np.divmod(keys[firsts(keys)], max(1, len(terms)))
    return term, place


def _by_row(*parts: Near) -> Near:
    row = np.concatenate([each.row for each in parts])
    place = np.concatenate([each.place for each in parts])
    order = np.lexsort((place, row))
    return Near(
        row=row[order],
        place=place[order],
        often=np.concatenate([each.often for each in parts])[order],
        factor=np.concatenate([each.factor for each in parts])[order],
    )
