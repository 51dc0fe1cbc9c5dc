"""The vocabulary as one value: what means the same, what is near, what excludes each other, what is dangerous.

It is made of the files that come with the programs and of what a club's `words.yml` says, which adds to them and takes
out of them. Whoever asks about a knowledge base asks `kbtools.index.words.vocabulary`.
"""

from __future__ import annotations

import functools
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from kbtools.model.vocabulary import NO_WORDS, Axis, Group, GroupKind, Tables, WordGroup, Words
from kbtools.vocabulary.failures import Failures
from kbtools.vocabulary.opposites import Opposites
from kbtools.vocabulary.stems import Equals, Kin, sequence, stem, words_of
from kbtools.vocabulary.tables import shipped_words

Stems = tuple[str, ...]
"""A phrase as `kbtools.vocabulary.stems.sequence` gives it: folded words without endings, a negation as `not`."""

Sides = Mapping[Stems, tuple[tuple[str, int], ...]]
"""Phrase → the names of the axes that it names a side of, each with the number of the side."""

WEIGHTS: Final[Mapping[GroupKind, float]] = {"same": 1.0, "parts": 1.0, "slang": 0.9, "kin": 0.6}
"""What a phrase counts for in whose place another one of its group stands."""

CLUB: Final = "words"
"""The source of a club's own groups: its `words.yml`."""

OWNERS: Final = "owners"
"""The source of what only owners say: the finder alone reads it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Meaning:
    """A group of phrases."""

    kind: GroupKind
    """What it holds."""
    phrases: Group
    """As they are written."""
    source: str
    """Which file says so: its name without the ending, `CLUB` for the club's own."""

    @property
    def weight(self) -> float:
        """What one phrase of it counts for in place of another."""
        return WEIGHTS[self.kind]


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A phrase of the vocabulary in a text."""

    start: int
    """Number of its first word."""
    end: int
    """Number of the word behind its last one."""
    phrase: Stems
    """The phrase."""


@dataclass(frozen=True, kw_only=True)
class Vocabulary:
    """What is known about words. Each answer is worked out when it is first asked for, and kept."""

    tables: Tables
    """What comes with the programs."""
    own: Words = NO_WORDS
    """What the club's `words.yml` says."""

    @functools.cached_property
    def groups(self) -> tuple[Meaning, ...]:
        """Every group of words that may stand for each other, the club's first."""
        return (
            *(Meaning(kind=each.kind, phrases=each.phrases, source=CLUB) for each in self.own.groups),
            *(
                Meaning(kind=group.kind, phrases=phrases, source=words.source)
                for words in shipped_words(self.tables)
                for group in words.groups
                for phrases in self._allowed(group)
            ),
        )

    def _allowed(self, group: WordGroup) -> Iterator[Group]:
        """A group of ours as the club leaves it: without what it takes out, parted where it tells words apart."""
        left = [self._left(group.phrases)]
        for row in self._apart:
            left = [part for each in left for part in _parted(each, row)]
        yield from (each for each in left if len(each) > 1)

    @functools.cached_property
    def _apart(self) -> tuple[frozenset[Stems], ...]:
        return tuple(frozenset(stems_of(each) for each in row.phrases) for row in self.own.apart)

    @functools.cached_property
    def _without(self) -> frozenset[Stems]:
        return frozenset(stems_of(each) for each in self.own.without)

    def _left(self, phrases: Group) -> Group:
        """Phrases of ours without those that the club takes out."""
        return tuple(each for each in phrases if stems_of(each) not in self._without) if self._without else phrases

    @functools.cached_property
    def axes(self) -> tuple[Axis, ...]:
        """What excludes each other; a club's row of a name that we have adds to its sides."""
        found: dict[str, Axis] = {}
        for words in shipped_words(self.tables):
            for axis in words.opposites:
                sides = tuple(self._left(side) for side in axis.sides)
                found[axis.name] = replace(axis, sides=sides, neither=self._left(axis.neither))
        for own in self.own.opposites:
            found[own.name] = _joined(found[own.name], own) if own.name in found else own
        return tuple(found.values())

    @functools.cached_property
    def sides(self) -> Sides:
        """Which sides each phrase names by itself, one of each axis; a phrase that says nothing is not there."""
        found: dict[Stems, tuple[tuple[str, int], ...]] = {}
        for axis in self.axes:
            for side, phrases in enumerate(axis.sides):
                for way in {stems_of(each) for each in phrases} - {()}:
                    found[way] = (*found.get(way, ()), (axis.name, side))
        return found

    @functools.cached_property
    def opposites(self) -> Opposites:
        """What excludes each other, ready for reading texts."""
        nothing = (each for words in shipped_words(self.tables) for each in words.neither)
        return Opposites(self.axes, (*nothing, *self.own.neither))

    @functools.cached_property
    def settled(self) -> frozenset[str]:
        """Every word that by itself is one of a group or names a side, folded: none is a misspelling of another one."""
        groups = (phrase for group in self.groups for phrase in group.phrases)
        sides = (phrase for axis in self.axes for side in (*axis.sides, axis.neither) for phrase in side)
        return frozenset(words[0] for phrase in (*groups, *sides) if len(words := words_of(phrase)) == 1)

    @functools.cached_property
    def failures(self) -> Failures:
        """In which way a part fails."""
        return Failures(way for words in (*shipped_words(self.tables), self.own) for way in words.fails)

    @functools.cached_property
    def codes(self) -> tuple[Group, ...]:
        """Groups of words that stand for each other in the meanings of codes."""
        return tuple(group for words in (*shipped_words(self.tables), self.own) for group in words.codes)

    @functools.cached_property
    def excluding(self) -> Mapping[str, frozenset[str]]:
        """Single word, folded → the single words that exclude it in the meanings of codes, or name the other side."""
        pairs = [row for words in (*shipped_words(self.tables), self.own) for row in words.opposite_codes]
        sides = [(row[:1], row[1:]) for row in pairs]
        sides += [(axis.sides[0], axis.sides[1]) for axis in self.axes if len(axis.sides) == 2]
        found: dict[str, frozenset[str]] = {}
        for each in sides:
            one, other = (frozenset(words[0] for text in side if len(words := words_of(text)) == 1) for side in each)
            for names, against in ((one, other), (other, one)):
                found |= {word: found.get(word, frozenset()) | against for word in names}
        return found

    @functools.cached_property
    def equals(self) -> Equals:
        """The club's equal words."""
        return Equals(each.phrases for each in self.own.groups if each.kind in {"same", "parts"})

    @functools.cached_property
    def like(self) -> Kin:
        """All other groups, for the comparison of texts; without what only owners say, who write no entries."""
        groups = (
            each
            for each in self.groups
            if not each.source.startswith(OWNERS) and (each.source != CLUB or each.kind in {"slang", "kin"})
        )
        return Kin((each.phrases for each in groups), self.equals)

    def kin(self, phrase: Sequence[str]) -> Mapping[Stems, float]:
        """What may stand in place of a phrase, and what it counts for there, above 0 and at most 1; not itself.

        Kin of kin are no kin. A phrase that no group has has none.
        """
        return self._kin.get(tuple(phrase), {})

    def phrases_in(self, words: Sequence[str]) -> Iterator[Span]:
        """Every phrase of a group in a text's words (as `sequence` gives them), by place, the longest first."""
        for start, first in enumerate(words):
            for length in self._lengths.get(first, ()):
                end = start + length
                if end <= len(words) and (phrase := tuple(words[start:end])) in self._phrases:
                    yield Span(start=start, end=end, phrase=phrase)

    def dangers(self, text: str) -> Mapping[str, tuple[str, ...]]:
        """The kinds of danger that a text names (`fuel`, `brakes`), each with its words as the text has them.

        Nothing is said of what a text leaves out: a text without such a word is not safe for that.
        """
        found: dict[str, list[str]] = {}
        written = words_of(text)
        words = [stem(word) for word in written]
        for start, first in enumerate(words):
            for phrase, kind in self._danger_phrases.get(first, ()):
                end = start + len(phrase)
                if tuple(words[start:end]) == phrase:
                    found.setdefault(kind, []).append(" ".join(written[start:end]))
        return {kind: tuple(dict.fromkeys(phrases)) for kind, phrases in found.items()}

    def is_harmless(self, text: str) -> bool:
        """Whether the name of a part says that it is worked on without opening what is dangerous: a pump's relay."""
        return not self._harmless.isdisjoint(stem(word) for word in words_of(text))

    @functools.cached_property
    def _harmless(self) -> frozenset[str]:
        every = (each for words in (*shipped_words(self.tables), self.own) for each in words.harmless)
        return frozenset(stem(word) for each in every for word in words_of(each))

    @functools.cached_property
    def _danger_phrases(self) -> Mapping[str, Sequence[tuple[Stems, str]]]:
        """First word → phrases of danger with their kind. What the club calls the same is as dangerous."""
        kinds: dict[str, set[Stems]] = {}
        for words in shipped_words(self.tables):
            for kind, phrases in words.dangers:
                kinds.setdefault(kind, set()).update(_whole(each) for each in self._left(phrases))
        for kind, phrases in self.own.dangers:
            kinds.setdefault(kind, set()).update(_whole(each) for each in phrases)
        club = [{_whole(each) for each in group.phrases} for group in self.own.groups if group.kind != "kin"]
        found: dict[str, list[tuple[Stems, str]]] = {}
        for kind, ours in kinds.items():
            more = ours.union(*(group for group in club if not group.isdisjoint(ours))) - {()}
            for phrase in sorted(more, key=lambda each: (-len(each), each)):
                found.setdefault(phrase[0], []).append((phrase, kind))
        return found

    @functools.cached_property
    def _kin(self) -> Mapping[Stems, Mapping[Stems, float]]:
        found: dict[Stems, dict[Stems, float]] = {}
        for group in self.groups:
            ways = list(dict.fromkeys(way for each in group.phrases if (way := stems_of(each))))
            for one in ways:
                near = found.setdefault(one, {})
                for other in ways:
                    if other != one:
                        near[other] = max(near.get(other, 0.0), group.weight)
        return found

    @functools.cached_property
    def _phrases(self) -> frozenset[Stems]:
        """Every phrase of a group."""
        return frozenset(way for group in self.groups for each in group.phrases if (way := stems_of(each)))

    @functools.cached_property
    def _lengths(self) -> Mapping[str, Sequence[int]]:
        """First word of phrases → how many words those have that begin so, the most first."""
        found: dict[str, set[int]] = {}
        for phrase in self._phrases:
            found.setdefault(phrase[0], set()).add(len(phrase))
        return {first: sorted(lengths, reverse=True) for first, lengths in found.items()}


@functools.lru_cache(maxsize=4)
def vocabulary_of(tables: Tables, own: Words) -> Vocabulary:
    """The vocabulary of these files and words; kept, since they stay what they are."""
    return Vocabulary(tables=tables, own=own)


@functools.lru_cache(maxsize=65536)
def stems_of(phrase: str) -> Stems:
    """A phrase as its stems."""
    return tuple(sequence(phrase))


def _whole(phrase: str) -> Stems:
    """A phrase in which a negation is a word like another."""
    return tuple(stem(word) for word in words_of(phrase))


def _parted(phrases: Group, row: Collection[Stems]) -> list[Group]:
    """A group once for each word of the row that it has, without the others; as it is if it has one at most."""
    told = [each for each in phrases if stems_of(each) in row]
    if len({stems_of(each) for each in told}) < 2:
        return [phrases]
    return [tuple(each for each in phrases if each not in told or stems_of(each) == stems_of(one)) for one in told]


def _joined(ours: Axis, own: Axis) -> Axis:
    sides = [list(side) for side in ours.sides]
    for number, side in enumerate(own.sides):
        if number < len(sides):
            sides[number] += side
        else:
            sides.append([*side])
    return replace(ours, sides=tuple(map(tuple, sides)), neither=(*ours.neither, *own.neither))
