"""What a text is found by besides its own words: what the vocabulary has for them.

Kin is written into the index when it is built, so that the browser knows no vocabulary: `kaput` is a term of whatever
says `broken`, with less weight. A phrase of several words is a term too (`phrases.py`); each of its words alone weighs
little.
"""

from __future__ import annotations

import functools
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Final

from kbtools.browser_data.finder.arrays import Rows
from kbtools.browser_data.finder.kept_kin import KeptKin, Known, Way
from kbtools.browser_data.finder.phrases import LONGEST_LOOSE, LONGEST_PHRASE, loose, telling, together
from kbtools.browser_data.finder.terms import terms_of
from kbtools.vocabulary.stems import NOT, sequence
from kbtools.vocabulary.whole import CLUB, Stems, Vocabulary, stems_of

CLUBS: Final = 0.85
"""Of what the club itself says means the same, beside the word itself."""
OURS: Final = 0.8
"""Of what the vocabulary says, times the weight of the group."""
AMBIGUOUS: Final = 0.3
"""A phrase of several groups says less for each: its kin weighs the number of groups to the power of minus this."""
OF_PHRASE: Final = 0.15
"""Of a word of a phrase of several: `ghost` says little of a machine that gave it up."""
LOOSELY: Final = 0.8
"""Of a phrase whose words stand in another order in the text, or with others between them."""

_COMPOUND: Final = 2
_FEW: Final = 256
"""Of so many texts one may be new, and what is remembered is not written anew: that takes longer."""


class KinOf:
    """To which phrases texts lead, and what these are found by; what was worked out is kept."""

    def __init__(self, vocabulary: Vocabulary, kept: KeptKin | None = None) -> None:
        self._vocabulary = vocabulary
        self._kept = kept
        known = (None if kept is None else kept.known()) or Known()
        self._near = dict(known.near)
        self._numbers = {way: number for number, way in enumerate(self._near)}
        self._known = known.texts
        self._new = 0

    @property
    def near(self) -> Sequence[Mapping[str, float]]:
        """Of each way, by its number: term → weight, above 0 and at most 1."""
        return list(self._near.values())

    def ways(self, texts: Collection[str]) -> Rows:
        """The numbers of the ways that each of the texts leads to; nothing is known of any other text from then on."""
        self._known, new = self._known.of(texts, self._ways)
        self._new += new
        return self._known.rows

    def of(self, text: str) -> Mapping[str, float]:
        """Term → weight, above 0 and at most 1, of what the text itself does not say."""
        found: dict[str, float] = {}
        own, ways = set(terms_of(text)), self._ways(text)
        near = self.near
        for number in ways:
            for term, weight in near[number].items():
                if term not in own:
                    found[term] = max(weight, found.get(term, 0.0))
        return found

    def keep(self) -> None:
        """Have remembered what was asked about, and nothing else, if enough of it is new."""
        if self._kept is not None and self._new * _FEW > len(self._known.texts):
            ways = list(self._near)
            used, texts = self._known.numbered_anew()
            self._kept.keep(Known(near={ways[number]: self._near[ways[number]] for number in used}, texts=texts))

    def _ways(self, text: str) -> list[int]:
        return [self._number(way) for way in dict.fromkeys(self._worked_out(text))]

    def _number(self, way: Way) -> int:
        found = self._numbers.get(way)
        if found is None:
            found = self._numbers[way] = len(self._numbers)
            share = LOOSELY if way[1] else 1.0
            self._near[way] = {term: share * weight for term, weight in self._of_phrase(way[0]).items()}
        return found

    def _worked_out(self, text: str) -> Iterator[Way]:
        hidden = 0
        for span in self._vocabulary.phrases_in(sequence(text)):
            # What is within a phrase that denies is denied: "does not start" says nothing of beginning.
            if span.end <= hidden:
                continue
            yield span.phrase, False
            if NOT in span.phrase:
                hidden = span.end
        phrases = self._phrases
        for term in loose(text, phrases.beside):
            for phrase in phrases.ways.get(term, ()):
                yield phrase, True

    @functools.cached_property
    def _phrases(self) -> _Phrases:
        """Not needed where the ways of all texts are remembered."""
        return _Phrases(self._vocabulary)

    def _of_phrase(self, phrase: Stems) -> Mapping[str, float]:
        found: dict[str, float] = {}
        numbers = self._phrases.groups.get(phrase, ())
        share = OURS * max(1, len(numbers)) ** -AMBIGUOUS
        for number in numbers:
            group = self._vocabulary.groups[number]
            weight = CLUBS if group.source == CLUB else share * group.weight
            for other in group.phrases:
                _keep(found, _terms(other), weight)
        return found


class _Phrases:
    """The phrases of a vocabulary, ready to be looked up."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.groups: dict[Stems, list[int]] = {}
        """The groups of each phrase, by their places."""
        self.ways: dict[str, list[Stems]] = {}
        """The phrases of the same words, by these as one term."""
        for number, group in enumerate(vocabulary.groups):
            for phrase, term in dict.fromkeys((stems_of(each), _loosely(each)) for each in group.phrases):
                numbers = self.groups.setdefault(phrase, [])
                if number not in numbers:
                    numbers.append(number)
                ways = self.ways.setdefault(term, []) if term else []
                if phrase not in ways:
                    ways.append(phrase)
        self.beside: dict[str, set[str]] = {}
        """Of each word those that one of these phrases has beside it: most words that stand together are in none."""
        for term in self.ways:
            words = term.split("+")
            for word in words:
                self.beside.setdefault(word, set()).update(words)


@functools.lru_cache(maxsize=65536)
def _loosely(phrase: str) -> str:
    terms = telling(phrase)
    return together(terms) if 1 < len(terms) == len(set(terms)) <= LONGEST_LOOSE else ""


@functools.lru_cache(maxsize=65536)
def _terms(phrase: str) -> Mapping[str, float]:
    """The terms of a phrase, and what each weighs beside the phrase."""
    terms = telling(phrase)
    if len(terms) < 2:
        return dict.fromkeys(terms, 1.0)
    loosely = _loosely(phrase)
    # Written together are two, of which somebody makes one word, and more than those that stand in any order.
    joined = len(terms) == _COMPOUND or (not loosely and len(terms) <= LONGEST_PHRASE)
    whole = [*(["".join(terms)] if joined else []), *([loosely] if loosely else [])]
    return {**dict.fromkeys(terms, OF_PHRASE), **dict.fromkeys(whole, 1.0)}


def _keep(found: dict[str, float], more: Mapping[str, float], share: float) -> None:
    for term, weight in more.items():
        if share * weight > found.get(term, 0.0):
            found[term] = share * weight
