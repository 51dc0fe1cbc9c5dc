"""What a text is found by besides its own words: what the vocabulary has for them.

Kin is written into the index when it is built, so that the browser knows no vocabulary: `kaput` is a term of whatever
says `broken`, with less weight. A phrase of several words is one term, its words written together, as the browser looks
them up; each of its words alone weighs little.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from kbtools.browser_data.finder.terms import STOP_WORDS, stem, terms_of, words_of
from kbtools.vocabulary.stems import NOT, sequence
from kbtools.vocabulary.whole import CLUB, Stems, Vocabulary

CLUBS: Final = 0.85
"""Of what the club itself says means the same, beside the word itself."""
OURS: Final = 0.8
"""Of what the vocabulary says, times the weight of the group."""
AMBIGUOUS: Final = 0.3
"""A phrase of several groups says less for each: its kin weighs the number of groups to the power of minus this."""
OF_PHRASE: Final = 0.15
"""Of a word of a phrase of several: `ghost` says little of a machine that gave it up."""
LONGEST_PHRASE: Final = 4
"""Telling words; the browser looks up no longer runs."""


class KinOf:
    """Kin of texts; what was worked out for a phrase or a text is kept."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self._vocabulary = vocabulary
        self._groups: dict[Stems, list[int]] = {}
        for number, group in enumerate(vocabulary.groups):
            for phrase in dict.fromkeys(tuple(sequence(each)) for each in group.phrases):
                self._groups.setdefault(phrase, []).append(number)
        self._of_phrase: dict[Stems, Mapping[str, float]] = {}
        self._of_text: dict[str, Mapping[str, float]] = {}

    def of(self, text: str) -> Mapping[str, float]:
        """Term → weight, above 0 and at most 1, of what the text itself does not say."""
        found = self._of_text.get(text)
        if found is None:
            found = self._of_text[text] = self._worked_out(text)
        return found

    def _worked_out(self, text: str) -> Mapping[str, float]:
        found: dict[str, float] = {}
        hidden = 0
        for span in self._vocabulary.phrases_in(sequence(text)):
            # What is within a phrase that denies is denied: "does not start" says nothing of beginning.
            if span.end <= hidden:
                continue
            _keep(found, self._phrase(span.phrase))
            if NOT in span.phrase:
                hidden = span.end
        own = set(terms_of(text))
        return {term: weight for term, weight in found.items() if term not in own}

    def _phrase(self, phrase: Stems) -> Mapping[str, float]:
        found = self._of_phrase.get(phrase)
        if found is None:
            found = {}
            numbers = self._groups.get(phrase, ())
            share = OURS * max(1, len(numbers)) ** -AMBIGUOUS
            for number in numbers:
                group = self._vocabulary.groups[number]
                for other in group.phrases:
                    _keep(found, _terms(other, CLUBS if group.source == CLUB else share * group.weight))
            self._of_phrase[phrase] = found
        return found


def _terms(phrase: str, weight: float) -> dict[str, float]:
    terms = [stem(word) for word in words_of(phrase) if word not in STOP_WORDS]
    if len(terms) < 2:
        return dict.fromkeys(terms, weight)
    whole = {"".join(terms): weight} if len(terms) <= LONGEST_PHRASE else {}
    return {**dict.fromkeys(terms, OF_PHRASE * weight), **whole}


def _keep(found: dict[str, float], more: Mapping[str, float]) -> None:
    for term, weight in more.items():
        if weight > found.get(term, 0.0):
            found[term] = weight
