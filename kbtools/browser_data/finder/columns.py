"""The terms that texts lead to, as columns of a table of entries.

Of what means the same most is in no text, and then all of a group stands in the same entries with the same weights: a
third of the work is enough where such terms have one column together.
"""

from __future__ import annotations

import numpy as np

from kbtools.browser_data.finder.arrays import Bools, Ints, Rows, firsts, ints, starts_of
from kbtools.browser_data.finder.kin import KinOf
from kbtools.browser_data.finder.texts import Texts


class Columns:
    """Which column each term has, and what each way leads to."""

    def __init__(self, kin: KinOf, texts: Texts) -> None:
        """Every text of the entries has been cut: what any of them says has a column by itself."""
        said = len(texts.terms)
        near = kin.near
        weights = np.array([weight for way in near for weight in way.values()], np.float64)
        self.weights, levels = np.unique(weights, return_inverse=True)
        """The few weights that there are, rising; a level is one of them by its place."""
        terms = ints(texts.terms[term] for way in near for term in way)
        ways = np.repeat(np.arange(len(near)), ints(map(len, near)))
        self.of_term = np.full(len(texts.terms), -1, np.int64)
        """Of each term; -1: no way leads to it."""
        leads = self._parted(terms, ways * len(self.weights) + levels.reshape(-1), said)
        self.many = int(self.of_term.max(initial=-1)) + 1
        """So many columns there are."""
        self.levels = len(self.weights) + 1
        """A column and a level make one number; what a text says itself has a level above all others."""
        values = (self.of_term[terms] * self.levels + levels.reshape(-1))[leads]
        self.ways = Rows(starts=starts_of(np.bincount(ways[leads], minlength=len(near))), values=values)
        """Of each way the columns that it leads to, with their levels."""

    def _parted(self, terms: Ints, told: Ints, said: int) -> Bools:
        """Give each term its column; says which of the rows are of the first term of a column."""
        order = np.lexsort((told, terms))
        first = firsts(terms[order])
        row = told[order]
        seen: dict[int | bytes, int] = {}
        leads = np.zeros(len(self.of_term), np.bool_)
        ends = np.append(first[1:], len(order))
        for term, start, end in zip(terms[order[first]].tolist(), first, ends, strict=False):
            key = term if term < said else row[start:end].tobytes()
            leads[term] = key not in seen
            self.of_term[term] = seen.setdefault(key, len(seen))
        return np.asarray(leads[terms])

    def rows(self, terms: int) -> Ints:
        """Of each of so many terms its row of the index: that of its column, or one of its own behind the columns."""
        row = np.full(terms, -1, np.int64)
        row[: len(self.of_term)] = self.of_term
        without = np.flatnonzero(row < 0)
        row[without] = self.many + np.arange(len(without))
        return row
