"""Words that an entry is lent by texts around it: by what those wrote who had the fault, by what is advised and done.

They say it as owners do, and they say much else: so they weigh little, and only the most telling ones count.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from kbtools.browser_data.finder import bm25
from kbtools.browser_data.finder.arrays import Floats, Ints, firsts
from kbtools.browser_data.finder.texts import Texts
from kbtools.browser_data.finder.uses import Uses

LENDS: Final = {"notes": 0.5, "conditions": 0.3, "advice": 0.5, "work": 0.4}
"""By kind of text what a word of it weighs beside one of the entry itself."""
MOST_TEXTS: Final = 4
"""A word that more texts have counts no more; so none weighs as much as one of a title."""
MOST_WORDS: Final = 60
"""Of one entry; those that few others are lent and that most of its texts have."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lent:
    """What entries are lent, each word of an entry once, in the order of the entries."""

    term: Ints
    """Number of the word's term."""
    place: Ints
    """Of the entry."""
    often: Floats
    """As how often it counts as standing there."""
    factor: Floats
    """What it then weighs beside a word of the entry's own."""


def lent(uses: Uses, entries: int, texts: Texts) -> Lent:
    """What each entry is lent by the texts that only lend words."""
    words = _words(uses, texts)
    having = np.bincount(words.term, minlength=len(texts.terms))
    telling = words.often * words.factor * bm25.rarities(having, entries)[words.term]
    # Of what is equally telling the first in the order of the alphabet.
    letters = np.empty(len(texts.terms), np.int64)
    letters[[texts.terms[term] for term in sorted(texts.terms)]] = np.arange(len(texts.terms))
    order = np.lexsort((letters[words.term], -telling, words.place))
    place = words.place[order]
    rank = np.arange(len(place)) - np.searchsorted(place, place)
    kept = order[rank < MOST_WORDS]
    return Lent(term=words.term[kept], place=words.place[kept], often=words.often[kept], factor=words.factor[kept])


def _words(uses: Uses, texts: Texts) -> Lent:
    """All words, before the most telling ones are taken."""
    term, use = texts.lent().of(uses.text)
    kinds, size = max(1, len(uses.names)), max(1, len(texts.terms))
    every = (uses.place[use] * size + term) * kinds + uses.field[use]
    every.sort()
    first = firsts(every)
    keys, counts = every[first], np.diff(first, append=len(every))
    first = firsts(keys // kinds)
    words = keys[first] // kinds
    factors = np.array([LENDS[name] for name in uses.names], np.float64)[keys % kinds]
    return Lent(
        term=words % size,
        place=words // size,
        often=_most(np.minimum(counts, MOST_TEXTS).astype(np.float64), first),
        factor=_most(factors, first),
    )


def _most(values: Floats, first: Ints) -> Floats:
    """The highest of each run of values."""
    return np.maximum.reduceat(values, first) if len(first) else values
