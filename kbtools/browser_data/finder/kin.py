"""What a text is found by besides its own words: what the vocabulary has for them.

Kin is written into the index when it is built, so that the browser knows no vocabulary: `kaput` is a term of whatever
says `broken`, with less weight. A phrase of several words is a term too (`phrases.py`); each of its words alone weighs
little.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator, Mapping
from typing import Final

from kbtools.browser_data.finder import bm25
from kbtools.browser_data.finder.entries import Entry
from kbtools.browser_data.finder.phrases import (
    LONGEST_LOOSE,
    LONGEST_PHRASE,
    loose,
    telling,
    together,
    whole_clauses,
)
from kbtools.browser_data.finder.terms import terms_of
from kbtools.model.memory import Memory
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

FIELDS: Final = frozenset(["title", "symptoms", "meanings", "causes", "components", "reported", "checks", "signs"])
"""Fields whose kin an entry is found by."""
MOST_OFTEN: Final = 12.0
"""As how often kin counts at most: many texts that lead to a word say more than one, but not without end."""
ROOT: Final = 0.5
"""Power of the weight with which a text counts there."""
CLAUSE_FIELDS: Final = ("title", "symptoms", "reported")
"""Fields of which a clause may be just what somebody asks."""
OF_CLAUSE: Final = 8.0
"""As how often such a clause counts."""
_NEVER: Final = (0.0, 0.0)
_COMPOUND: Final = 2
_WORK: Final = "kin"


class KinOf:
    """Kin of texts and entries; what was worked out for a phrase or a text is kept."""

    def __init__(self, vocabulary: Vocabulary, kept: KeptKin | None = None) -> None:
        self._vocabulary = vocabulary
        self._kept = kept
        self._of_phrase: dict[Stems, Mapping[str, float]] = {}
        self._of_text: dict[str, Mapping[str, float]] = {}

    @functools.cached_property
    def _phrases(self) -> tuple[Mapping[Stems, list[int]], Mapping[str, list[Stems]]]:
        """The groups of each phrase, and the phrases of the same words; not needed where all kin is remembered."""
        groups: dict[Stems, list[int]] = {}
        ways_of: dict[str, list[Stems]] = {}
        for number, group in enumerate(self._vocabulary.groups):
            for phrase, term in dict.fromkeys((stems_of(each), _loosely(each)) for each in group.phrases):
                numbers = groups.setdefault(phrase, [])
                if number not in numbers:
                    numbers.append(number)
                ways = ways_of.setdefault(term, []) if term else []
                if phrase not in ways:
                    ways.append(phrase)
        return groups, ways_of

    def of_entry(self, entry: Entry) -> dict[str, tuple[float, float]]:
        """Term → as how often it counts, and what it weighs beside a word of the entry's own."""
        found: dict[str, tuple[float, float]] = {}
        for name, text in _texts(entry):
            field = bm25.WEIGHTS[name]
            for term, weight in self.of(text).items():
                often, before = found.get(term, _NEVER)
                found[term] = (min(MOST_OFTEN, often + field * weight**ROOT), max(before, weight))
        if entry.kind == "fault":
            clauses = (term for name, text in _texts(entry) if name in CLAUSE_FIELDS for term in whole_clauses(text))
            found |= dict.fromkeys(clauses, (OF_CLAUSE, 1.0))
        return found

    def of(self, text: str) -> Mapping[str, float]:
        """Term → weight, above 0 and at most 1, of what the text itself does not say."""
        found = self._of_text.get(text)
        if found is None:
            kept = self._kept
            found = self._of_text[text] = self._worked_out(text) if kept is None else kept.of(text, self._worked_out)
        return found

    def _worked_out(self, text: str) -> Mapping[str, float]:
        found: dict[str, float] = {}
        hidden = 0
        for span in self._vocabulary.phrases_in(sequence(text)):
            # What is within a phrase that denies is denied: "does not start" says nothing of beginning.
            if span.end <= hidden:
                continue
            _keep(found, self._phrase(span.phrase), 1.0)
            if NOT in span.phrase:
                hidden = span.end
        _, ways_of = self._phrases
        for term in loose(text):
            for phrase in ways_of.get(term, ()):
                _keep(found, self._phrase(phrase), LOOSELY)
        own = set(terms_of(text))
        return {term: weight for term, weight in found.items() if term not in own}

    def _phrase(self, phrase: Stems) -> Mapping[str, float]:
        found = self._of_phrase.get(phrase)
        if found is None:
            found = {}
            numbers = self._phrases[0].get(phrase, ())
            share = OURS * max(1, len(numbers)) ** -AMBIGUOUS
            for number in numbers:
                group = self._vocabulary.groups[number]
                weight = CLUBS if group.source == CLUB else share * group.weight
                for other in group.phrases:
                    _keep(found, _terms(other), weight)
            self._of_phrase[phrase] = found
        return found


class KeptKin:
    """Kin of texts that was worked out in an earlier run: most of it, since an edit touches few texts."""

    def __init__(self, memory: Memory, vocabulary: bytes) -> None:
        """`vocabulary`: a digest of the club's part of it; ours belongs to the programs."""
        self._memory = memory
        self._vocabulary = vocabulary

    def of(self, text: str, work_out: Callable[[str], Mapping[str, float]]) -> Mapping[str, float]:
        """What is remembered of a text, else what is worked out now."""
        asked = self._vocabulary + text.encode()
        found: Mapping[str, float] | None = self._memory.worked_out(_WORK, asked)
        if found is None:
            found = work_out(text)
            self._memory.keep_worked_out(_WORK, asked, found)
        return found


def _texts(entry: Entry) -> Iterator[tuple[str, str]]:
    """Field and text of what an entry has kin by."""
    if entry.kind not in {"model", "code"}:
        yield "title", entry.title
        yield from ((name, text) for name, texts in entry.fields.items() if name in FIELDS for text in texts)


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
