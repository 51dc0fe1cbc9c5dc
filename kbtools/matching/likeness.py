"""How alike two values of a field are: every function is symmetric, within 0 to 1, and 1 for the same value."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from rapidfuzz.distance import JaroWinkler

from kbtools.matching.assignment import best_total
from kbtools.matching.spelling import near_words
from kbtools.matching.words import NOT, Equals, sequence, telling

V = TypeVar("V")

_SPELT = 0.85
"""What a word counts for that is there with a slip of the keys."""
_BACKGROUND = 40
"""So many texts without any of the words are added to the base, so that in a small one no word looks common."""
_LEAST = 0.02
"""Weight of a word that stands everywhere; not 0, or two texts of such words only could not be compared."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bag:
    """The telling words of a text with what each counts for."""

    weights: Mapping[str, float]
    """Word → weight."""
    total: float
    """Of all words."""
    near: frozenset[str]
    """Those of the words that have near ones in the base."""


class Lexicon:
    """The words of a base: which are common, which mean the same, which are probably slips of the keys."""

    __slots__ = ("_counts", "_documents", "_equals", "_halves", "_near")

    def __init__(self, texts: Iterable[Iterable[str]], equals: Equals, settled: Collection[str] = ()) -> None:
        """Learn the words of a base.

        Args:
            texts: the texts of each record.
            equals: the club's equal words.
            settled: words that are no misspellings of each other, without their endings.
        """
        self._equals = equals
        counts: dict[str, int] = {}
        documents = 0
        for record in texts:
            documents += 1
            for word in {word for text in record for word in sequence(text)}:
                counts[word] = counts.get(word, 0) + 1
        self._halves = _halves(counts)
        self._counts: dict[str, int] = {}
        for word, count in counts.items():
            for each in equals.applied(self._halves.get(word, (word,))):
                self._counts[each] = max(self._counts.get(each, 0), count)
        self._documents = documents
        self._near = near_words(list(self._counts), settled)

    def weight(self, word: str) -> float:
        """What a word counts for: 1 where no record has it, next to nothing where all have."""
        every = self._documents + _BACKGROUND
        return max(_LEAST, math.log(every / (self._counts.get(word, 0) + 1)) / math.log(every))

    def words(self, texts: Iterable[str]) -> list[str]:
        """The telling words of texts, in order, equal ones made one."""
        found: list[str] = []
        for text in texts:
            parted = [part for word in sequence(text) for part in self._halves.get(word, (word,))]
            found += telling(word for word in self._equals.applied(parted) if word != NOT)
        return found

    def near(self, word: str) -> frozenset[str]:
        """Words of the base that this one may be a misspelling of, and the other way round."""
        return self._near.get(word, frozenset())

    def bag(self, texts: Iterable[str]) -> Bag | None:
        """The words of texts with their weights; None where they say nothing."""
        weights = {word: self.weight(word) for word in dict.fromkeys(self.words(texts))}
        if not weights:
            return None
        return Bag(weights=weights, total=sum(weights.values()), near=frozenset(w for w in weights if w in self._near))

    def alike(self, left: Bag, right: Bag) -> float:
        """How much of the weight of two texts they share.

        Half of it is measured by both (a longer text has more to share), half by the shorter one (a text that is part of
        another one): the shorter one alone would call a text and any longer one that holds it the same.
        """
        shared = self.shared(left, right)
        return 0.5 * (2 * shared / (left.total + right.total)) + 0.5 * shared / min(left.total, right.total)

    def shared(self, left: Bag, right: Bag) -> float:
        """The weight of the words that both have, misspelt ones counted a little less."""
        if len(right.weights) < len(left.weights) or (
            len(right.weights) == len(left.weights) and sorted(right.weights) < sorted(left.weights)
        ):
            left, right = right, left
        mine, theirs = left.weights, right.weights
        # Summed in an order that does not depend on the order of the words, so that equal texts are exactly equal.
        common = mine.keys() & theirs.keys()
        shared = left.total if len(common) == len(mine) else math.fsum(mine[word] for word in common)
        if left.near and right.near and len(common) < len(mine):
            shared += self._misspelt(left, right, common)
        return min(shared, left.total, right.total)

    def _misspelt(self, left: Bag, right: Bag, common: Collection[str]) -> float:
        found = 0.0
        free = {word for word in right.near if word not in common}
        for word in sorted(left.near - set(common)):
            twins = sorted(self._near[word] & free)
            if twins:
                free.discard(twins[0])
                found += _SPELT * min(left.weights[word], right.weights[twins[0]])
        return found


def _halves(counts: Mapping[str, int]) -> dict[str, tuple[str, str]]:
    """Words that the base also writes as two: `fuseholder` → `fuse`, `hold`."""
    found = {}
    for word, count in counts.items():
        if len(word) >= 6:
            ways = ((word[:at], word[at:]) for at in range(3, len(word) - 2))
            known = [way for way in ways if counts.get(way[0], 0) > count and counts.get(way[1], 0) >= count]
            if known:
                found[word] = max(known, key=lambda way: (min(counts[way[0]], counts[way[1]]), way))
    return found


def sets(alike: Callable[[V, V], float], *, part: float) -> Callable[[Sequence[V], Sequence[V]], float]:
    """Likeness of two sets of members by their best assignment to each other.

    Args:
        alike: how alike two members are.
        part: between 0, measured by all members of both, and 1, measured by the smaller set only.
    """

    def likeness(left: Sequence[V], right: Sequence[V]) -> float:
        total = best_total([[alike(one, other) for other in right] for one in left])
        return (1 - part) * 2 * total / (len(left) + len(right)) + part * total / min(len(left), len(right))

    return likeness


def same(left: object, right: object) -> float:
    """1 for equal values."""
    return 1.0 if left == right else 0.0


def jaro_winkler(left: str, right: str) -> float:
    """Winkler's likeness of two names."""
    return JaroWinkler.similarity(left, right)


def days(half: float) -> Callable[[dt.date, dt.date], float]:
    """Likeness of two dates that falls to one half at so many days apart."""
    return lambda left, right: 0.5 ** (abs((left - right).days) / half)


def distance(half: float) -> Callable[[float, float], float]:
    """Likeness of two numbers that falls to one half at so much apart."""
    return lambda left, right: 0.5 ** (abs(left - right) / half)
