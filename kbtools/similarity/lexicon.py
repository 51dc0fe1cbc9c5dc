"""The words of a base: which are common, which mean the same or nearly so, which are probably slips of the keys."""

from __future__ import annotations

import functools
import itertools
import math
import operator
import re
from array import array
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

from kbtools.vocabulary.spelling import near_words
from kbtools.vocabulary.stems import NOT, Equals, Kin, folded, sequence, stem, stemmed, telling, words_of

T = TypeVar("T")

_WORD = re.compile(r"[^\W\d_]+")
_SHORT = 4
"""Shorter words are left as they stand."""
_LONG = 24
"""Longer ones too: no word of a table is as long."""

_SPELT = 0.85
"""What a word counts for that is there with a slip of the keys."""
_KIN = 0.97
"""What words count for in whose place there are others of like meaning."""
_ASIDE = 0.6
"""What a near word counts for in the answer to a question, beside what it counts for anyway."""
_BRIEF = 0.4
"""How much less a part counts where little is said."""
_BACKGROUND = 40
"""So many texts without any of the words are added to the base, so that in a small one no word looks common."""
_TEXTS = 10_000
"""Of so many texts it is kept what they say."""
_LEAST = 0.02
"""Weight of a word that stands everywhere; not 0, or two texts of such words only could not be compared."""

Spans = Mapping[int, frozenset[str]]
"""Number of a group of like words → the words of the text that stand for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bag:
    """The telling words of a text with what each counts for."""

    weights: Mapping[str, float]
    """Word → weight."""
    total: float
    """Of all words."""
    near: frozenset[str]
    """Those of the words that have misspelt ones in the base, or are such."""
    spans: Spans
    """Groups of like words that the text names."""


class Lexicon:
    """What the words of a base tell when two of its texts are compared."""

    __slots__ = (
        *("_counts", "_documents", "_equals", "_groups", "_halves", "_kin", "_names", "_near", "_odd", "_one"),
        *("_rarities", "_raw", "_records", "_right", "_sets", "_slips", "_spans", "_stem_slips", "_wholes", "_words"),
    )

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
            settled: words, folded, that are no misspellings of each other, and no other form of them is.
        """
        self._equals = equals
        self._kin = kin or Kin((), equals)
        self._records = [list(record) for record in texts]
        self._documents = len(self._records)
        # Most texts are read more than once, one time soon after the other.
        self._wholes: dict[str, Sequence[str]] = {}
        self._words: dict[str, Sequence[str]] = {}
        self._spans: dict[str, Spans] = {}
        self._groups: Mapping[int, int] | None = None
        self._odd: dict[str, Sequence[tuple[str, str, Any]]] = {}
        self._rarities: dict[int, float] = {}
        # The texts of a large base hold the same words over and over, and so do its bags.
        self._one: dict[str, str] = {}
        self._sets: dict[frozenset[str], frozenset[str]] = {}
        self._names: dict[tuple[str, ...], frozenset[str]] = {}
        self._right: dict[int, tuple[Mapping[str, str], dict[str, str]]] = {}
        self._raw = raw = dict[str, Sequence[str]]()
        written: set[str] = set()
        for text in dict.fromkeys(itertools.chain(*self._records)):
            whole = words_of(text)
            written.update(whole)
            raw[text] = self._one_each(stemmed(whole))
        self._halves = _halves(_counted({word for text in record for word in raw[text]} for record in self._records))
        self._counts = _counted({word for text in record for word in self._telling(text)} for record in self._records)
        # Mended before endings are taken off: a slip in one hides the ending.
        stems = _stems_of(frozenset(settled))
        self._slips = near_words(written, settled, {word for word in written if stem(word) in stems})
        self._stem_slips = _of_stems(self._slips)
        near = {word: {other for other in others if other in self._counts} for word, others in self._stem_slips.items()}
        self._near = {word: others for word, others in near.items() if others and word in self._counts}

    def _one_each(self, words: Iterable[str]) -> tuple[str, ...]:
        """Words, each of which is one object wherever it stands."""
        return tuple([self._one.setdefault(word, word) for word in words])

    def _applied(self, words: Iterable[str]) -> Sequence[str]:
        return self._one_each(
            self._equals.applied([part for word in words for part in self._halves.get(word, (word,))])
        )

    def _whole(self, text: str) -> Sequence[str]:
        """Every word of a text, equal ones made one."""
        whole = self._wholes.get(text)
        if whole is None:
            raw = self._raw.get(text)
            whole = _kept(self._wholes, text, self._applied(sequence(text) if raw is None else raw))
        return whole

    def _telling(self, text: str) -> Sequence[str]:
        words = self._words.get(text)
        if words is None:
            own = self._one_each(telling([word for word in self._whole(text) if word != NOT]))
            words = _kept(self._words, text, own)
        return words

    def _named(self, text: str) -> Spans:
        """The groups of like words that a text names."""
        spans = self._spans.get(text)
        if spans is None:
            spans = _kept(self._spans, text, self._spans_of(self._whole(text)))
        return spans

    def _spans_of(self, whole: Sequence[str]) -> Spans:
        spans: dict[int, frozenset[str]] = {}
        for group, start, end in self._kin.spans([self._meant_word(word) for word in whole]):
            words = self._said_by(whole[start:end])
            if words:
                self._add(spans, group, words)
        return spans

    def _said_by(self, name: Sequence[str]) -> frozenset[str]:
        """The telling words of a name, which stands in many texts."""
        way = tuple(name)
        words = self._names.get(way)
        if words is None:
            own = frozenset(self._one_each(telling(word for word in way if word != NOT)))
            words = self._names[way] = self._sets.setdefault(own, own)
        return words

    def _add(self, spans: dict[int, frozenset[str]], group: int, words: frozenset[str]) -> None:
        """Take in words that stand for a group; equal sets are one object."""
        own = spans.setdefault(group, words)
        if own is not words and not words <= own:
            both = own | words
            spans[group] = self._sets.setdefault(both, both)

    def _meant_word(self, word: str) -> str:
        """A misspelt word as it was meant, if that has words of like meaning."""
        if word not in self._stem_slips or self._kin.knows(word):
            return word
        meant = [other for other in self._stem_slips.get(word, ()) if self._kin.knows(other)]
        return meant[0] if len(meant) == 1 else word

    def weight(self, word: str) -> float:
        """What a word counts for: 1 where no record has it, next to nothing where all have."""
        count = self._counts.get(word, 0)
        rarity = self._rarities.get(count)
        if rarity is None:
            rarity = self._rarities[count] = self._rarity(count)
        return rarity

    def _rarity(self, count: int) -> float:
        every = self._documents + _BACKGROUND
        return max(_LEAST, math.log(every / (count + 1)) / math.log(every))

    def told(self, words: Iterable[str]) -> bytes:
        """Changes with all that weighing adds to words: how many records have them, and whether one is misspelt."""
        words = [*words]
        counts = array("L", [self._documents, *(self._counts.get(word, 0) for word in words)])
        return counts.tobytes() + bytes([word in self._near for word in words])

    def odd(self, text: str) -> Sequence[tuple[str, str, Any]]:
        """What of the other texts decides how the words of this one are read, their weights aside; JSON, in order.

        Halves of a word, slips of the keys and the words that were meant: most texts have nothing of it.
        """
        known = self._odd.get(text)
        if known is None:
            known = _kept(self._odd, text, sorted(self._oddities(text)))
        return known

    def _oddities(self, text: str) -> Iterator[tuple[str, str, Any]]:
        raw = self._raw.get(text)
        for word in {each for each in (sequence(text) if raw is None else raw) if each in self._halves}:
            yield "halves", word, self._halves[word]
        if self._slips:
            for word in {each for each in self._whole(text) if each in self._stem_slips}:
                yield "slips", word, [sorted(self._stem_slips[word]), sorted(self.near(word))]
            for word in {each for found in _WORD.findall(text) if (each := _plain(found)) in self._slips}:
                yield "written", word, [sorted(self._slips[word]), self._counts.get(stem(word), 0) > 1]

    def words(self, texts: Iterable[str]) -> list[str]:
        """The telling words of texts, in order, equal ones made one."""
        return [word for text in texts for word in self._telling(text)]

    def groups(self, texts: Iterable[str]) -> list[int]:
        """The groups of like words that texts name, each once."""
        return list(dict.fromkeys(group for text in texts for group in self._named(text)))

    def near(self, word: str) -> Collection[str]:
        """Words of the base that are misspellings of this one, or that this one is a misspelling of."""
        return self._near.get(word, ())

    def meant(self, text: str, words: Mapping[str, str]) -> str:
        """The text with each misspelt one of `words` put right: `does not clsoe` → `does not close`.

        Args:
            text: as it was written.
            words: without their endings → as they are written; only these are looked for.
        """
        if not self._slips:
            return text
        # The same words over and over. By the object, which is held, since a table has no name.
        _, known = self._right.setdefault(id(words), (words, {}))
        return _WORD.sub(lambda found: self._right_word(found[0], words, known), text)

    def _right_word(self, word: str, words: Mapping[str, str], known: dict[str, str]) -> str:
        right = known.get(word)
        if right is None:
            right = known[word] = self._put_right(word, words)
        return right

    def _put_right(self, word: str, words: Mapping[str, str]) -> str:
        plain = _plain(word)
        if len(word) > _LONG or plain not in self._slips:
            return word
        told = stem(plain)
        if len(told) < _SHORT or self._counts.get(told, 0) > 1 or told in words or self._kin.knows(told):
            return word
        slips = {words[meant] for other in self._slips[plain] if (meant := stem(other)) in words}
        return slips.pop() if len(slips) == 1 else word

    def said(self, texts: Iterable[str]) -> tuple[Sequence[str], Spans]:
        """The telling words of texts, each once, in order, and the groups of like words that they name."""
        texts = list(texts)
        spans: dict[int, frozenset[str]] = {}
        for text in texts:
            for group, words in self._named(text).items():
                self._add(spans, group, words)
        return list(dict.fromkeys(word for text in texts for word in self._telling(text))), spans

    def weighed(self, words: Iterable[str], spans: Spans, less: Collection[str] = (), to: float = 1.0) -> Bag | None:
        """The words with their weights; see `bag`."""
        weights = {word: self.weight(word) for word in self._one_each(words)}
        weights |= {word: weights[word] * to for word in less if word in weights}
        if not weights:
            return None
        near = frozenset(word for word in weights if word in self._near)
        named = {group: self._sets.setdefault(own, own) for group, own in spans.items()}
        return Bag(
            weights=weights, total=math.fsum(weights.values()), near=self._sets.setdefault(near, near), spans=named
        )

    def bag(self, texts: Iterable[str], *, less: Collection[str] = (), to: float = 1.0) -> Bag | None:
        """The words of texts with their weights; None where they say nothing.

        Args:
            texts: what is said.
            less: words that count for less here.
            to: the share of their weight that those keep.
        """
        return self.weighed(*self.said(texts), less, to)

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
        asked = {word: weight for word, weight in question.weights.items() if self._asks(word, question.spans)}
        alike = frozenset(word for group in question.spans.keys() & text.spans.keys() for word in question.spans[group])
        found = []
        for word, weight in asked.items():
            if word in text.weights:
                best = 1.0
            elif not text.weights.keys().isdisjoint(self.near(word)):
                best = _SPELT
            else:
                # Of one word there is less to go by than of a whole entry, and the word itself is the better answer.
                best = _KIN * _ASIDE if word in alike else 0.0
            found.append(weight * best)
        return min(1.0, math.fsum(found) / math.fsum(asked.values())) if asked else 0.0

    def answers(self, question: Bag, title: Bag) -> float:
        """How well a title answers a question: half of it, how much of the question; half, how much of the title."""
        return 0.5 * self.covered(question, title) + 0.5 * min(1.0, self.shared(question, title) / title.total)

    def _asks(self, word: str, spans: Spans) -> bool:
        if self._counts.get(word, 0) > 1 or word in self._near:
            return True
        if self._groups is None:
            # Only questions need it.
            self._groups = _counted(
                {group for text in record for group in self._named(text)} for record in self._records
            )
        return any(word in words and self._groups.get(group, 0) > 1 for group, words in spans.items())

    def shared(self, left: Bag, right: Bag) -> float:
        """The weight of the words that both have; misspelt ones and those of like meaning count a little less."""
        mine, theirs = left.weights, right.weights
        common = mine.keys() & theirs.keys()
        # Summed exactly, so that the order of the words does not matter.
        shared = math.fsum([min(mine[word], theirs[word]) for word in common])
        if len(common) < min(len(mine), len(theirs)):
            shared += self._nearly(left, right, common)
        return min(shared, left.total, right.total)

    def _nearly(self, left: Bag, right: Bag, common: Collection[str]) -> float:
        """The words that only one has, with the best free near ones of the other's; the best couples first."""
        # Of a group that both name by the same words, which mostly are one object, all are common.
        mine, theirs = left.spans, right.spans
        groups = [group for group in mine.keys() & theirs.keys() if mine[group] is not theirs[group]]
        if not groups and not (left.near and right.near):
            return 0.0
        one, other = left.weights.keys() - common, right.weights.keys() - common
        gains = []
        for _, _, factor, words, twins in sorted(self._couples(left, right, one, other, groups), key=_first_two):
            free, twin = words & one, twins & other
            if free and twin:
                gains.append(factor * min(_sum(left, free), _sum(right, twin)))
                one -= free
                other -= twin
        return math.fsum(gains)

    def _couples(
        self, left: Bag, right: Bag, one: Collection[str], other: Collection[str], groups: Iterable[int]
    ) -> Iterator[_Couple]:
        """What may stand for each other among the words that only one has, and only the other."""
        for word in left.near.intersection(one):
            for twin in right.near.intersection(other, self._near[word]):
                gain = _SPELT * min(left.weights[word], right.weights[twin])
                yield -gain, " ".join(sorted((word, twin))), _SPELT, frozenset({word}), frozenset({twin})
        for group in groups:
            words = left.spans[group].intersection(one)
            twins = right.spans[group].intersection(other) if words else words
            if twins:
                yield -_KIN * min(_sum(left, words), _sum(right, twins)), str(group), _KIN, words, twins


_Couple = tuple[float, str, float, frozenset[str], frozenset[str]]
"""The gain with its sign turned and a name, both for the order only; what near words count for; words of the one and of
the other."""


def _plain(word: str) -> str:
    """A word, folded."""
    return folded(word) if len(word) > _LONG else _plain_short(word)


_plain_short = functools.lru_cache(maxsize=16384)(folded)


@functools.lru_cache(maxsize=2)
def _stems_of(words: frozenset[str]) -> frozenset[str]:
    """Kept, since our own tables stay what they are."""
    return frozenset(map(stem, words))


def _kept(known: dict[str, T], text: str, found: T) -> T:
    """What was found out of a text, noted. Of few texts at a time: of all of them it takes more than the base."""
    if len(known) >= _TEXTS:
        known.clear()
    known[text] = found
    return found


_first_two = operator.itemgetter(0, 1)


def _sum(bag: Bag, words: Iterable[str]) -> float:
    return math.fsum([bag.weights[word] for word in words])


def _of_stems(slips: Mapping[str, Collection[str]]) -> dict[str, set[str]]:
    """Slips among words as slips among words without their endings."""
    found: dict[str, set[str]] = {}
    for word, others in slips.items():
        told = stem(word)
        if more := {stem(other) for other in others} - {told}:
            found.setdefault(told, set()).update(more)
    return found


def _counted(records: Iterable[Iterable[T]]) -> dict[T, int]:
    """In how many records each thing stands."""
    counts: dict[T, int] = {}
    for record in records:
        for each in record:
            counts[each] = counts.get(each, 0) + 1
    return counts


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
