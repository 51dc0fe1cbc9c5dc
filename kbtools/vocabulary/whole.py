"""The vocabulary as one value: what means the same, what is near, what excludes each other, what is dangerous.

It is made of the tables that come with the programs and of what a club's `words.yml` says. Whoever asks about a
knowledge base asks `kbtools.index.words.vocabulary`.
"""

from __future__ import annotations

import functools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from kbtools.model.vocabulary import Group, Tables
from kbtools.vocabulary.opposites import Opposites, opposites
from kbtools.vocabulary.stems import Equals, Kin, sequence, stem, words_of

Kind = Literal["same", "parts", "slang", "kin"]
"""What a group holds: what means the same, names of one part, what people say for it, what is only near."""

Stems = tuple[str, ...]
"""A phrase as `kbtools.vocabulary.stems.sequence` gives it: folded words without endings, a negation as `not`."""

WEIGHTS: Final[Mapping[Kind, float]] = {"same": 1.0, "parts": 1.0, "slang": 0.9, "kin": 0.6}
"""What a phrase counts for in whose place another one of its group stands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Meaning:
    """A group of phrases."""

    kind: Kind
    """What it holds."""
    phrases: Group
    """As they are written."""
    source: str
    """Which file says so: its name without the ending, or `words` for the club's own."""

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
    own: tuple[Group, ...] = ()
    """The club's groups of words that mean the same."""

    @functools.cached_property
    def groups(self) -> tuple[Meaning, ...]:
        """Every group, the club's first."""
        club = (Meaning(kind="same", phrases=each, source="words") for each in self.own)
        return (*club, *(Meaning(kind="same", phrases=each, source="") for each in self.tables.alike))

    @functools.cached_property
    def opposites(self) -> Opposites:
        """What excludes each other."""
        return opposites(self.tables)

    @functools.cached_property
    def equals(self) -> Equals:
        """The club's equal words."""
        return Equals(self.own)

    @functools.cached_property
    def like(self) -> Kin:
        """Our groups, for the comparison of texts."""
        return Kin(self.tables.alike, self.equals)

    def kin(self, phrase: Sequence[str]) -> Mapping[Stems, float]:
        """What may stand in place of a phrase, and what it counts for there, above 0 and at most 1; not itself.

        Kin of kin are no kin. A phrase that no group has has none.
        """
        return self._kin.get(tuple(phrase), {})

    def phrases_in(self, words: Sequence[str]) -> Iterator[Span]:
        """Every phrase of a group in a text's words (as `sequence` gives them), by place, the longest first."""
        for start, first in enumerate(words):
            for phrase in self._by_first.get(first, ()):
                end = start + len(phrase)
                if tuple(words[start:end]) == phrase:
                    yield Span(start=start, end=end, phrase=phrase)

    def dangers(self, text: str) -> Mapping[str, tuple[str, ...]]:
        """The kinds of danger that a text names (`fuel`, `battery`), each with its phrases as the text has them."""
        found: dict[str, list[str]] = {}
        written = words_of(text)
        words = [stem(word) for word in written]
        for start, first in enumerate(words):
            for phrase, kind in self._danger_phrases.get(first, ()):
                end = start + len(phrase)
                if tuple(words[start:end]) == phrase:
                    found.setdefault(kind, []).append(" ".join(written[start:end]))
        return {kind: tuple(dict.fromkeys(phrases)) for kind, phrases in found.items()}

    @functools.cached_property
    def _danger_phrases(self) -> Mapping[str, Sequence[tuple[Stems, str]]]:
        """First word → phrases of danger with their kind. What the club calls the same is as dangerous."""
        found: dict[str, list[tuple[Stems, str]]] = {}
        club = [{_stems(each) for each in group} for group in self.own]
        for kind, phrases in DANGERS.items():
            ours = {_stems(each) for each in phrases}
            ours = ours.union(*(group for group in club if not group.isdisjoint(ours)))
            for phrase in sorted(ours - {()}, key=lambda each: (-len(each), each)):
                found.setdefault(phrase[0], []).append((phrase, kind))
        return found

    @functools.cached_property
    def _kin(self) -> Mapping[Stems, Mapping[Stems, float]]:
        found: dict[Stems, dict[Stems, float]] = {}
        for group in self.groups:
            ways = list(dict.fromkeys(way for each in group.phrases if (way := tuple(sequence(each)))))
            for one in ways:
                near = found.setdefault(one, {})
                for other in ways:
                    if other != one:
                        near[other] = max(near.get(other, 0.0), group.weight)
        return found

    @functools.cached_property
    def _by_first(self) -> Mapping[str, Sequence[Stems]]:
        found: dict[str, list[Stems]] = {}
        for phrase in sorted(self._kin, key=lambda each: (-len(each), each)):
            found.setdefault(phrase[0], []).append(phrase)
        return found


def _stems(text: str) -> Stems:
    return tuple(stem(word) for word in words_of(text))


DANGERS: Final[Mapping[str, tuple[str, ...]]] = {
    "fuel": tuple(
        (
            "fuel petrol gasoline benzin kraftstoff essence carburant benzina carburante combustible gasolina "
            "combustivel benzine brandstof bensin drivmedel drivstoff benzyna paliwo benzín palivo bensiini"
        ).split()
    ),
    "battery": tuple(
        "battery accumulator batterie akku batteria bateria batería accu batteri akumulator baterie akku".split()
    ),
}
"""Kind → words and names of what is dangerous."""


@functools.lru_cache(maxsize=4)
def vocabulary_of(tables: Tables, own: tuple[Group, ...]) -> Vocabulary:
    """The vocabulary of these tables and words; kept, since they stay what they are."""
    return Vocabulary(tables=tables, own=own)
