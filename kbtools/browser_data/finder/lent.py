"""Words that an entry is lent by texts around it: by what those wrote who had the fault, by what is advised and done.

They say it as owners do, and they say much else: so they weigh little, and only the most telling ones count.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Final

from kbtools.browser_data.finder import bm25
from kbtools.browser_data.finder.entries import Entry
from kbtools.browser_data.finder.terms import LIGHT_WORDS, STOP_WORDS, stem, words_of

LENDS: Final[Mapping[str, float]] = {"notes": 0.5, "conditions": 0.3, "advice": 0.5, "work": 0.4}
"""By kind of text what a word of it weighs beside one of the entry itself."""
MOST_TEXTS: Final = 4
"""A word that more texts have counts no more; so none weighs as much as one of a title."""
MOST_WORDS: Final = 60
"""Of one entry; those that few others are lent and that most of its texts have."""

Lent = Mapping[str, tuple[float, float]]
"""Term → how often it counts as standing there, and what it then weighs beside one that does."""


def lent(found: Sequence[Entry]) -> list[Lent]:
    """Of each entry what it is lent."""
    all_words = [_words(entry) for entry in found]
    having = Counter(term for words in all_words for term in words)
    size = len(found)

    def telling(row: tuple[str, tuple[float, float]]) -> tuple[float, str]:
        term, (count, weight) = row
        return (-count * weight * bm25.rarity(having[term], size), term)

    return [dict(sorted(words.items(), key=telling)[:MOST_WORDS]) for words in all_words]


def _words(entry: Entry) -> dict[str, tuple[float, float]]:
    found: dict[str, tuple[float, float]] = {}
    for kind, texts in entry.lenders.items():
        weight = LENDS[kind]
        for term, count in Counter(term for text in texts for term in _terms(text)).items():
            often = float(min(count, MOST_TEXTS))
            before = found.get(term, (0.0, 0.0))
            found[term] = (max(before[0], often), max(before[1], weight))
    return found


def _terms(text: str) -> set[str]:
    return {stem(word) for word in words_of(text) if word not in STOP_WORDS and word not in LIGHT_WORDS}
