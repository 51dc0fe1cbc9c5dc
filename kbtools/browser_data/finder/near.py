"""What entries are found by beside their own words, as arrays: kin of their texts, short clauses, what they are lent.

The kin of a text is what its phrases lead to, but for what it says itself; of several phrases the surest counts. In an
entry each text counts by its field. All of it is done for some entries at a time, so that it takes no more room at any
size of the base.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kbtools.browser_data.finder.arrays import Floats, Ints, Rows, ints, rows_of
from kbtools.browser_data.finder.bm25 import WEIGHTS
from kbtools.browser_data.finder.entries import Entry
from kbtools.browser_data.finder.kin import KinOf
from kbtools.browser_data.finder.lent import Lent, lent
from kbtools.browser_data.finder.phrases import whole_clauses
from kbtools.browser_data.finder.texts import Numbers, Texts

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
_TEXTS_AT_ONCE: Final = 2048
_CELLS_AT_ONCE: Final = 500_000
"""Entries times terms."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """What some entries are found by, each term of an entry once; by term in the order of the entries."""

    term: Ints
    """Number of the term."""
    place: Ints
    """Of the entry."""
    often: Floats
    """As how often it counts there."""
    factor: Floats
    """What it then weighs beside a word of the entry's own."""


class Nearby:
    """What all entries are found by; all of its terms have their numbers when it is made."""

    def __init__(self, found: Sequence[Entry], texts: Texts, kin: KinOf) -> None:
        self._size = len(found)
        self._uses = _Uses(found, texts, kin)
        self._lends = lent(found, texts)
        self._kin = _KinOfTexts(self._uses, texts, kin)
        self._clauses = _clauses(found, texts.terms)
        # Terms that are no kin of anything are few, and stand in no table.
        self._columns = np.full(len(texts.terms), -1)
        self._columns[self._kin.terms] = np.arange(len(self._kin.terms))

    def parts(self) -> Iterator[Near]:
        """Some entries at a time, in their order."""
        many = max(1, _CELLS_AT_ONCE // max(1, len(self._kin.terms)))
        for first in range(0, self._size, many):
            end = min(first + many, self._size)
            table = _Table(first, end, self._kin.terms)
            table.add(self._uses, self._kin)
            rest = table.lend(self._lends, self._columns)
            yield _joined(rest, table.near(), _between(self._clauses, first, end))


class _Uses:
    """Which texts entries have kin by, in the order of the entries, with the weights of their fields."""

    def __init__(self, found: Sequence[Entry], texts: Texts, kin: KinOf) -> None:
        numbers = Numbers()
        rows = [
            (place, WEIGHTS[name], numbers[text]) for place, entry in enumerate(found) for name, text in _texts(entry)
        ]
        self.places = ints(place for place, *_ in rows)
        self.weights = np.array([weight for _, weight, _ in rows], np.float64)
        self.which = ints(which for *_, which in rows)
        self.ways = rows_of(map(kin.ways, numbers))
        """Of each different text."""
        self.texts = ints(map(texts.number, numbers))
        """The numbers of the different texts."""


class _KinOfTexts:
    """Of each different text its kin: a term's number, and which of the few weights that there are it has."""

    def __init__(self, uses: _Uses, texts: Texts, kin: KinOf) -> None:
        ways = kin.near
        weights = np.array([weight for way in ways for weight in way.values()], np.float64)
        self.weights, levels = np.unique(weights, return_inverse=True)
        self.roots = np.array([weight**ROOT for weight in self.weights.tolist()], np.float64)
        near_ways = rows_of([texts.terms[term] for term in way] for way in ways)
        # A term and its level as one number; what a text says itself has a level above all others.
        self.levels = len(self.weights) + 1
        self._ways = Rows(starts=near_ways.starts, values=near_ways.values * self.levels + levels.reshape(-1))
        self._step = len(texts.terms) * self.levels
        own = texts.own()
        parts = [self._merged(first, uses.ways, uses.texts, own) for first in range(0, len(uses.texts), _TEXTS_AT_ONCE)]
        lengths = np.concatenate([np.zeros(1, np.int64), *(lengths for lengths, _ in parts)])
        values = np.concatenate([np.zeros(0, np.int64), *(values for _, values in parts)])
        self.rows = Rows(starts=np.cumsum(lengths), values=values)
        self.terms = np.unique(values // self.levels)
        """All terms that are kin of a text, rising."""

    def _merged(self, first: int, ways: Rows, texts: Ints, own: Rows) -> tuple[Ints, Ints]:
        some = np.arange(first, min(len(texts), first + _TEXTS_AT_ONCE))
        way, text = ways.of(some)
        value, of = self._ways.of(way)
        said, says = own.of(texts[some])
        step, levels = self._step, self.levels
        every = np.concatenate([text[of] * step + value, says * step + said * levels + levels - 1])
        every.sort()
        term = every // levels
        surest = np.ones(len(term), np.bool_)
        surest[:-1] = term[1:] != term[:-1]
        kept = every[surest & (every % levels != levels - 1)]
        return np.bincount(kept // step, minlength=len(some)), kept % step


class _Table:
    """Some entries, and of each how often and how much each term counts that is kin of any text."""

    def __init__(self, first: int, end: int, terms: Ints) -> None:
        self._first = first
        self._end = end
        self._terms = terms
        self._often = np.zeros(0)
        self._factor = np.zeros(0)

    def add(self, uses: _Uses, kin: _KinOfTexts) -> None:
        """Fill it with the kin of the entries' texts."""
        here = _between_places(uses.places, self._first, self._end)
        value, row = kin.rows.of(uses.which[here])
        term, level = value // kin.levels, value % kin.levels
        cell = (uses.places[here] - self._first)[row] * len(self._terms) + np.searchsorted(self._terms, term)
        size = (self._end - self._first) * len(self._terms)
        # In the order of the texts, so that the sums are those of adding one after another.
        often = np.bincount(cell, weights=uses.weights[here][row] * kin.roots[level], minlength=size)
        self._often = np.minimum(often, MOST_OFTEN)
        top = np.zeros(size, np.int64)
        np.maximum.at(top, cell, level + 1)
        self._factor = np.append(0.0, kin.weights)[top]

    def lend(self, lends: Lent, columns: Ints) -> Near:
        """Lend the entries words, of what they have already that which weighs more; gives what has no column."""
        here = _between_places(lends.place, self._first, self._end)
        term, place, often, factor = lends.term[here], lends.place[here], lends.often[here], lends.factor[here]
        column = columns[term]
        inside = column >= 0
        cell = ((place - self._first) * len(self._terms) + column)[inside]
        more = often[inside] * factor[inside] > self._often[cell] * self._factor[cell]
        self._often[cell[more]] = often[inside][more]
        self._factor[cell[more]] = factor[inside][more]
        return Near(term=term[~inside], place=place[~inside], often=often[~inside], factor=factor[~inside])

    def near(self) -> Near:
        """What is in it."""
        cell = np.flatnonzero(self._factor)
        width = max(1, len(self._terms))
        return Near(
            term=self._terms[cell % width],
            place=cell // width + self._first,
            often=self._often[cell],
            factor=self._factor[cell],
        )


def _texts(entry: Entry) -> Iterator[tuple[str, str]]:
    """Field and text of what an entry has kin by."""
    if entry.kind not in {"model", "code"}:
        yield "title", entry.title
        yield from ((name, text) for name, texts in entry.fields.items() if name in FIELDS for text in texts)


def _clauses(found: Sequence[Entry], terms: Numbers) -> Near:
    """The short clauses of faults, each as one term."""
    known: dict[str, list[int]] = {}
    rows: list[tuple[int, int]] = []
    for place, entry in enumerate(found):
        if entry.kind == "fault":
            own: set[int] = set()
            for name, text in _texts(entry):
                if name in CLAUSE_FIELDS:
                    if text not in known:
                        known[text] = [terms[term] for term in whole_clauses(text)]
                    own.update(known[text])
            rows += ((place, term) for term in own)
    return Near(
        term=ints(term for _, term in rows),
        place=ints(place for place, _ in rows),
        often=np.full(len(rows), OF_CLAUSE),
        factor=np.ones(len(rows)),
    )


def _between(rows: Near, first: int, end: int) -> Near:
    here = _between_places(rows.place, first, end)
    return Near(term=rows.term[here], place=rows.place[here], often=rows.often[here], factor=rows.factor[here])


def _between_places(places: Ints, first: int, end: int) -> slice:
    """Where entries stand in rows that are in their order."""
    low, high = np.searchsorted(places, [first, end])
    return slice(int(low), int(high))


def _joined(*parts: Near) -> Near:
    return Near(
        term=np.concatenate([each.term for each in parts]),
        place=np.concatenate([each.place for each in parts]),
        often=np.concatenate([each.often for each in parts]),
        factor=np.concatenate([each.factor for each in parts]),
    )
