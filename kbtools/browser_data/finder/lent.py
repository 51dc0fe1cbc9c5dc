"""Words that an entry is lent by texts around it: by what those wrote who had the fault, by what is advised and done.

They say it as owners do, and they say much else: so they weigh little, and only the most telling ones count.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from kbtools.browser_data.finder import bm25
from kbtools.browser_data.finder.arrays import Floats, Ints, added_up, ints
from kbtools.browser_data.finder.entries import Entry
from kbtools.browser_data.finder.texts import Texts

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


def lent(found: Sequence[Entry], texts: Texts) -> Lent:
    """What each entry is lent."""
    words = _words(found, texts)
    having = np.bincount(words.term, minlength=len(texts.terms))
    telling = words.often * words.factor * bm25.rarities(having, len(found))[words.term]
    # Of what is equally telling the first in the order of the alphabet.
    letters = np.empty(len(texts.terms), np.int64)
    letters[[texts.terms[term] for term in sorted(texts.terms)]] = np.arange(len(texts.terms))
    order = np.lexsort((letters[words.term], -telling, words.place))
    place = words.place[order]
    rank = np.arange(len(place)) - np.searchsorted(place, place)
    kept = order[rank < MOST_WORDS]
    return Lent(term=words.term[kept], place=words.place[kept], often=words.often[kept], factor=words.factor[kept])


def _words(found: Sequence[Entry], texts: Texts) -> Lent:
    """All words, before the most telling ones are taken."""
    kinds = list(LENDS)
    uses = [
        (place, kinds.index(kind), texts.number(text))
        for place, entry in enumerate(found)
        for kind, given in entry.lenders.items()
        for text in given
    ]
    places, which = ints(place for place, *_ in uses), ints(kind for _, kind, _ in uses)
    term, use = texts.lent().of(ints(text for *_, text in uses))
    size = len(texts.terms)
    keys, counts = added_up((places[use] * size + term) * len(kinds) + which[use], np.ones(len(use)))
    words, first = np.unique(keys // len(kinds), return_index=True)
    if not len(words):
        return Lent(term=words, place=words, often=counts, factor=counts)
    return Lent(
        term=words % size,
        place=words // size,
        often=np.maximum.reduceat(np.minimum(counts, MOST_TEXTS), first),
        factor=np.maximum.reduceat(np.array(list(LENDS.values()))[keys % len(kinds)], first),
    )
