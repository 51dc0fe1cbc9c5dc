"""How alike two values of a field are: every function is symmetric, within 0 to 1, and 1 for the same value."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from rapidfuzz.distance import JaroWinkler

from kbtools.matching.assignment import best_total
from kbtools.matching.spelling import near_words
from kbtools.matching.words import NOT, Equals, Kin, folded, sequence, stem, telling

V = TypeVar("V")

_WORD = re.compile(r"[^\W\d_]+")
_SHORT = 4
"""Shorter words are left as they stand."""
_LONG = 24
"""Longer ones too: no word of a table is as long."""

_SPELT = 0.85
"""What a word counts for that is there with a slip of the keys."""
_KIN = 0.9
"""What a word counts for in whose place there is one of like meaning."""
_ASIDE = 0.6
"""What a near word counts for in the answer to a question, beside what it counts for anyway."""
_BRIEF = 0.4
"""How much less a part counts where little is said."""
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
    """The words of a base: which are common, which mean the same or nearly so, which are probably slips of the keys."""

    __slots__ = ("_counts", "_documents", "_equals", "_halves", "_kin", "_near", "_slips", "_told")

    def __init__(
        self,
        texts: Iterable[Iterable[str]],
        equals: Equals,
        kin: Kin | None = None,
        settled: Collection[str] = (),
    ) -> None:
        """Learn the words of a base.

        Args:
            texts: the texts of each record.
            equals: the club's equal words.
            kin: words of like meaning.
            settled: words that are no misspellings of each other, without their endings.
        """
        self._equals = equals
        self._kin = kin or Kin((), equals)
        counts: dict[str, int] = {}
        known: dict[str, list[str]] = {}
        records = [[known.setdefault(text, []) or _read(known, text) for text in record] for record in texts]
        for record in records:
            for word in {word for words in record for word in words}:
                counts[word] = counts.get(word, 0) + 1
        self._halves = _halves(counts)
        self._counts: dict[str, int] = {}
        for record in records:
            for word in {word for words in record for word in self._telling(words)}:
                self._counts[word] = self._counts.get(word, 0) + 1
        self._documents = len(records)
        self._told: dict[str, tuple[str, ...]] = {}
        self._near = self._near_ones(settled)

    def _near_ones(self, settled: Collection[str]) -> dict[str, dict[str, float]]:
        near: dict[str, dict[str, float]] = {}
        self._slips = slips = near_words({*self._counts, *settled}, settled)
        for word, others in slips.items():
            if word in self._counts:
                near[word] = {other: _SPELT for other in others if other in self._counts}
        for word in self._counts:
            for other in self._kin.of(word):
                if other in self._counts:
                    near.setdefault(word, {}).setdefault(other, _KIN)
        return self._with_kin_of_slips(near, slips)

    def _with_kin_of_slips(
        self, near: dict[str, dict[str, float]], slips: Mapping[str, Collection[str]]
    ) -> dict[str, dict[str, float]]:
        """A misspelt word also has the kin of the word that it was meant to be."""
        for word, others in slips.items():
            if self._kin.groups(word) or word not in near:
                continue
            for meant in others:
                for kin in self._kin.of(meant):
                    if kin in self._counts and kin != word:
                        near[word].setdefault(kin, _SPELT * _KIN)
                        near.setdefault(kin, {}).setdefault(word, _SPELT * _KIN)
        return near

    def weight(self, word: str) -> float:
        """What a word counts for: 1 where no record has it, next to nothing where all have."""
        every = self._documents + _BACKGROUND
        return max(_LEAST, math.log(every / (self._counts.get(word, 0) + 1)) / math.log(every))

    def _telling(self, words: Sequence[str]) -> list[str]:
        parted = [part for word in words for part in self._halves.get(word, (word,))]
        return telling(word for word in self._kin.joined(self._equals.applied(parted)) if word != NOT)

    def words(self, texts: Iterable[str]) -> list[str]:
        """The telling words of texts, in order, equal ones made one."""
        found: list[str] = []
        for text in texts:
            told = self._told.get(text)
            if told is None:
                told = self._told[text] = tuple(self._telling(sequence(text)))
            found += told
        return found

    def near(self, word: str) -> Mapping[str, float]:
        """Words of the base that this one may stand for, with what such a one counts for."""
        return self._near.get(word, {})

    def meant(self, text: str, words: Mapping[str, str]) -> str:
        """The text with each misspelt one of `words` put right: `does not clsoe` → `does not close`.

        Args:
            text: as it was written.
            words: without their endings → as they are written; only these are looked for.
        """
        return _WORD.sub(lambda found: self._put_right(found[0], words), text)

    def _put_right(self, word: str, words: Mapping[str, str]) -> str:
        if len(word) > _LONG:
            return word
        told = stem(folded(word))
        if len(told) < _SHORT or self._counts.get(told, 0) > 1 or told in words or self._kin.groups(told):
            return word
        slips = [other for other in self._slips.get(told, ()) if other in words]
        return words[slips[0]] if len(slips) == 1 else word

    def bag(self, texts: Iterable[str], *, less: Collection[str] = (), to: float = 1.0) -> Bag | None:
        """The words of texts with their weights; None where they say nothing.

        Args:
            texts: what is said.
            less: words that count for less here.
            to: the share of their weight that those keep.
        """
        weights = {word: self.weight(word) for word in dict.fromkeys(self.words(texts))}
        weights |= {word: weights[word] * to for word in less if word in weights}
        if not weights:
            return None
        total = math.fsum(weights.values())
        return Bag(weights=weights, total=total, near=frozenset(word for word in weights if word in self._near))

    def alike(self, left: Bag, right: Bag) -> float:
        """How much of the weight of two texts they share.

        Half of it is measured by both (a longer text has more to share), half by the shorter one (a text that is part
        of another one): the shorter one alone would call a text and any longer one that holds it the same. Of two or
        three words it says little that one is shared: the less is said, the less a part of it counts.
        """
        shared = self.shared(left, right)
        shorter = min(left.total, right.total)
        share = 0.5 * (2 * shared / (left.total + right.total)) + 0.5 * shared / shorter
        return float(share ** (1.0 + _BRIEF / shorter))

    def covered(self, question: Bag, text: Bag) -> float:
        """How much of the weight of a question a text answers: not symmetric, and longer texts are no worse.

        The question is one of the records of this lexicon. Words of it that no other record has decide nothing.
        """
        asked = {word: weight for word, weight in question.weights.items() if self._asks(word)}
        found = []
        for word, weight in asked.items():
            near = self._near.get(word, {})
            best = max((near[twin] for twin in near.keys() & text.weights.keys()), default=0.0)
            # Of one word there is less to go by than of a whole entry, and the word itself is the better answer.
            found.append(weight * (1.0 if word in text.weights else best * _ASIDE))
        return min(1.0, math.fsum(found) / math.fsum(asked.values())) if asked else 0.0

    def _asks(self, word: str) -> bool:
        return self._counts.get(word, 0) > 1 or word in self._near

    def shared(self, left: Bag, right: Bag) -> float:
        """The weight of the words that both have; misspelt ones and those of like meaning count a little less."""
        if (len(right.weights), right.total) < (len(left.weights), left.total):
            left, right = right, left
        mine, theirs = left.weights, right.weights
        common = mine.keys() & theirs.keys()
        # Summed exactly, so that the order of the words does not matter.
        shared = math.fsum(min(mine[word], theirs[word]) for word in common)
        if len(common) < len(mine) and left.near and right.near:
            shared += self._nearly(left, right, common)
        return min(shared, left.total, right.total)

    def _nearly(self, left: Bag, right: Bag, common: Collection[str]) -> float:
        """Each word that only one has, with the best free near one of the other's; the best couples first."""
        free = {word for word in right.near if word not in common}
        couples = []
        for word in left.near:
            if word not in common:
                near = self._near[word]
                for twin in near.keys() & free:
                    gain = near[twin] * min(left.weights[word], right.weights[twin])
                    couples.append((-gain, min(word, twin), max(word, twin), word, twin))
        couples.sort()
        taken: set[str] = set()
        gains = []
        for loss, _, _, word, twin in couples:
            if word not in taken and twin in free:
                taken.add(word)
                free.discard(twin)
                gains.append(-loss)
        return math.fsum(gains)


def _read(known: dict[str, list[str]], text: str) -> list[str]:
    known[text] = words = sequence(text)
    return words


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
