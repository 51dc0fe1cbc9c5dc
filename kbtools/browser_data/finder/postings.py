"""Which entries have a term, and what it weighs there: BM25 over the entries' own words and what is near to them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from kbtools.browser_data.finder import bm25
from kbtools.browser_data.finder.arrays import Floats, Ints, added_up, ints
from kbtools.browser_data.finder.entries import Entry
from kbtools.browser_data.finder.kin import KinOf
from kbtools.browser_data.finder.near import Near, Nearby
from kbtools.browser_data.finder.terms import sort_key
from kbtools.browser_data.finder.texts import Texts

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
    starts: Ints
    """Where the entries of each term begin in the other two, and where the last ones end."""
    places: Ints
    """Of the entries, rising within a term."""
    weights: Ints
    """In hundredths, 1 at least."""


def postings(found: Sequence[Entry], texts: Texts, kin: KinOf) -> Postings:
    """All terms of all entries."""
    own = _Own(found, texts)
    nearby = Nearby(found, texts, kin)
    having = np.bincount(own.term, minlength=len(texts.terms)).astype(np.float64)
    stands = having > 0
    parts = [own.without_own(each, having, stands) for each in nearby.parts()]
    rare = bm25.rarities(having, len(found))
    kinds = np.array([KIND_WEIGHTS.get(entry.kind, 1.0) for entry in found], np.float64)
    terms = sorted(texts.terms, key=sort_key)
    order = np.empty(len(terms), np.int64)
    order[[texts.terms[term] for term in terms]] = np.arange(len(terms))
    # Each posting as one number: numbers are sorted ten times as fast as rows.
    every = np.concatenate([each.packed(rare, kinds, order) for each in (own, *parts)])
    every.sort()
    row, weights = every // _MOST, every % _MOST
    having_any, starts = np.unique(row // max(1, len(found)), return_index=True)
    return Postings(
        terms=[terms[each] for each in having_any.tolist()],
        starts=np.append(starts, len(row)),
        places=row % max(1, len(found)),
        weights=weights,
    )


class _Weighed:
    """Postings before it is known how rare their terms are."""

    def __init__(self, term: Ints, place: Ints, weight: Floats) -> None:
        self.term = term
        self.place = place
        self.weight = weight

    def packed(self, rare: Floats, kinds: Floats, order: Ints) -> Ints:
        """Each as a number: by the order of its term, then by place; the weight last."""
        weight = np.rint(SCALE * (self.weight * rare[self.term] * kinds[self.place])).astype(np.int64)
        return (order[self.term] * len(kinds) + self.place) * _MOST + np.maximum(weight, 1)


class _Own(_Weighed):
    """The entries' own words, by place, then by term."""

    def __init__(self, found: Sequence[Entry], texts: Texts) -> None:
        uses = [
            (place, bm25.WEIGHTS.get(name, 1), texts.number(text))
            for place, entry in enumerate(found)
            for name, given in (("title", (entry.title,)), *entry.fields.items())
            for text in given
        ]
        term, use = texts.own().of(ints(text for *_, text in uses))
        places = ints(place for place, *_ in uses)[use]
        weights = ints(weight for _, weight, _ in uses)[use]
        size = max(1, len(texts.terms))
        keys, counts = added_up(places * size + term, weights)
        lengths = np.bincount(places, weights=weights, minlength=len(found)).astype(np.float64)
        self._dampings = bm25.dampings(lengths)
        super().__init__(keys % size, keys // size, np.zeros(0))
        self.weight = counts / (counts + self._dampings[self.place])

    def without_own(self, some: Near, having: Floats, stands: npt.NDArray[np.bool_]) -> _Weighed:
        """What is near to some entries and none of their own words; of these, what weighs more is taken over.

        `having` counts on, of how many entries each term is; `stands` says which terms any entry has itself.
        """
        weight = some.factor * some.often / (some.often + self._dampings[some.place])
        size = len(having)
        low, high = np.searchsorted(self.place, [some.place.min(), some.place.max() + 1]) if len(weight) else (0, 0)
        keys = self.place[low:high] * size + self.term[low:high]
        wanted = some.place * size + some.term
        at = np.searchsorted(keys, wanted)
        same = np.append(keys, -1)[at] == wanted
        mine = low + at[same]
        self.weight[mine] = np.maximum(self.weight[mine], weight[same])
        rest = ~same
        # A word that others have is no commoner for being a piece of a phrase here.
        counts = rest & ((some.factor >= bm25.LEAST_HAVING) | ~stands[some.term])
        np.add.at(having, some.term[counts], some.factor[counts])
        return _Weighed(some.term[rest], some.place[rest], weight[rest])
