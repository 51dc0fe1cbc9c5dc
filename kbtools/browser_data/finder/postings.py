"""Which entries have a term, and what it weighs there: BM25 over the entries' own words and what is near to them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kbtools.browser_data.finder import bm25
from kbtools.browser_data.finder.arrays import Floats, Ints, SmallInts, added_up, starts_of
from kbtools.browser_data.finder.entries import Entry
from kbtools.browser_data.finder.kin import KinOf
from kbtools.browser_data.finder.lent import lent
from kbtools.browser_data.finder.near import Near, Nearby
from kbtools.browser_data.finder.terms import sort_key
from kbtools.browser_data.finder.texts import Texts
from kbtools.browser_data.finder.uses import Uses, lenders_uses, own_uses

KIND_WEIGHTS: Final[Mapping[str, float]] = {"code": 0.9, "system": 0.7, "component": 0.7, "values": 0.7}
"""A fault says more than a code that it has or a part that fails in it, so of two that fit alike it comes first."""
SCALE: Final = 100
"""Weights are kept as whole numbers of hundredths."""
_MOST: Final = 1 << 20
"""More than any weight, so that it fits beside a place into one number."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Postings:
    """All terms with the entries that have them."""

    terms: Sequence[str]
    """In the order of `terms.sort_key`."""
    rows: Ints
    """Of each term which row it has; terms that stand in the same entries with the same weights may share one."""
    starts: Ints
    """Where each row begins in the other two, and where the last one ends."""
    places: SmallInts
    """Of the entries, rising within a row."""
    weights: SmallInts
    """In hundredths, 1 at least."""


def postings(found: Sequence[Entry], texts: Texts, kin: KinOf) -> Postings:
    """All terms of all entries."""
    row_of, lengths, places, weights = _rows(found, texts, kin)
    starts = starts_of(np.concatenate(lengths))
    terms = sorted(texts.terms, key=sort_key)
    rows = row_of[[texts.terms[term] for term in terms]] if terms else row_of
    some = starts[rows + 1] > starts[rows]
    return Postings(
        terms=[term for term, has_any in zip(terms, some.tolist(), strict=True) if has_any],
        rows=rows[some],
        starts=starts,
        places=_joined(places),
        weights=_joined(weights),
    )


def _rows(
    found: Sequence[Entry], texts: Texts, kin: KinOf
) -> tuple[Ints, list[Ints], list[SmallInts], list[SmallInts]]:
    """Of each term its row, and of some rows after others how many entries each has, places and weights."""
    uses = own_uses(found, texts)
    nearby = Nearby(found, uses, lent(lenders_uses(found, texts), len(found), texts), texts, kin)
    own = _Own(found, uses, texts, nearby.row_of)
    lengths: list[Ints] = []
    places: list[SmallInts] = []
    weights: list[SmallInts] = []
    for rows, near in nearby.parts():
        some = own.weighed(rows, near)
        lengths.append(some[0])
        places.append(some[1])
        weights.append(some[2])
    return nearby.row_of, lengths, places, weights


def _joined(parts: list[SmallInts]) -> SmallInts:
    """Parts as one; they are given up, since there would not be room for all of them twice."""
    whole = np.concatenate(parts)
    parts.clear()
    return whole


class _Own:
    """The entries' own words, by row of the index, then by place."""

    def __init__(self, found: Sequence[Entry], uses: Uses, texts: Texts, row_of: Ints) -> None:
        self._size = len(found)
        weights = np.array([bm25.WEIGHTS.get(name, 1) for name in uses.names], np.int64)[uses.field]
        term, use = texts.own().of(uses.text)
        place = uses.place[use]
        lengths = np.bincount(place, weights=weights[use], minlength=self._size).astype(np.float64)
        self._dampings = bm25.dampings(lengths)
        self._kinds = np.array([KIND_WEIGHTS.get(entry.kind, 1.0) for entry in found], np.float64)
        self._keys, counts = added_up(row_of[term] * self._size + place, weights[use])
        self._weight = counts / (counts + self._dampings[self._keys % max(1, self._size)])

    def weighed(self, rows: range, near: Near) -> tuple[Ints, SmallInts, SmallInts]:
        """Of some rows how many entries each has, and of all of these places and weights."""
        low, high = np.searchsorted(self._keys, [rows.start * self._size, rows.stop * self._size])
        keys, mine = self._keys[low:high], self._weight[low:high]
        row, place = np.divmod(keys, max(1, self._size))
        having = np.bincount(row - rows.start, minlength=len(rows)).astype(np.float64)
        stands = having > 0
        weight = near.factor * near.often / (near.often + self._dampings[near.place])
        # What an entry says itself counts once, by what weighs more.
        wanted = near.row * self._size + near.place
        at = np.searchsorted(wanted, keys)
        same = np.append(wanted, -1)[at] == keys
        mine[same] = np.maximum(mine[same], weight[at[same]])
        rest = np.ones(len(wanted), np.bool_)
        rest[at[same]] = False
        # A word that others have is no commoner for being a piece of a phrase here.
        in_row = near.row - rows.start
        counts = rest & ((near.factor >= bm25.LEAST_HAVING) | ~stands[in_row])
        np.add.at(having, in_row[counts], near.factor[counts])
        rare = bm25.rarities(having, self._size)
        every = np.concatenate(
            [
                self._packed(row - rows.start, place, mine, rare),
                self._packed(in_row[rest], near.place[rest], weight[rest], rare),
            ]
        )
        every.sort()
        posting, weights = np.divmod(every, _MOST)
        row, place = np.divmod(posting, max(1, self._size))
        return np.bincount(row, minlength=len(rows)), place.astype(np.int32), weights.astype(np.int32)

    def _packed(self, row: Ints, place: Ints, weight: Floats, rare: Floats) -> Ints:
        """Each posting as a number: by its row, then by place; the weight last."""
        hundredths = np.rint(SCALE * (weight * rare[row] * self._kinds[place])).astype(np.int64)
        return (row * self._size + place) * _MOST + np.maximum(hundredths, 1)
