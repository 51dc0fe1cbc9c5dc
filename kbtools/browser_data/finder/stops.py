"""What the finder says first: `stop_now` of cautions.yml, each phrase with the words by which it may be asked as well.

A phrase is asked for by all of its words, in any order and among others. In place of each word stands what means the
same, and in place of words in a row what the vocabulary has for them together. Terms are those of `terms.py`; several
words in a row are one term, written together, as the browser has them.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Final

from kbtools.browser_data.finder.phrases import telling
from kbtools.browser_data.finder.terms import NOT, STOP_WORDS, stem, words_of
from kbtools.model.base import KnowledgeBase
from kbtools.text.html import plain
from kbtools.vocabulary.whole import OWNERS, Meaning, Stems, Vocabulary, stems_of

LEAST_WEIGHT: Final = 0.85
"""Of a group whose words may stand for each other here: what is only near would cry wolf."""
LEAST_ALONE: Final = 1.0
"""Where nothing else of the phrase is asked for: slang for hot is slang for much else."""
LONGEST: Final = 4
"""Words of a phrase that the browser looks up as one."""

_LAMP: Final = "lamp"

Way = list[list[str]]
"""Of each word of a phrase the terms that tell it."""


def stops(base: KnowledgeBase, words: Vocabulary) -> list[dict[str, object]]:
    """The rows in file order, JSON-ready: `asked`, and `say`, plain text without unseen characters."""
    same = _Same(words)
    return [
        {"asked": [way for phrase in row.asked for way in same.ways(phrase)], "say": plain(row.do)}
        for row in base.stop_now
    ]


def lamps(words: Vocabulary) -> list[str]:
    """Terms of single words that mean a lamp: a part whose name ends so is a lamp, "brake light"."""
    names = (each for group in words.groups if group.kind in {"same", "parts"} for each in _with_lamp(group.phrases))
    return sorted({stem(_LAMP), *names})


def _with_lamp(phrases: Collection[str]) -> Iterator[str]:
    cut = [telling(each) for each in phrases]
    if [stem(_LAMP)] in cut:
        yield from (terms[0] for terms in cut if len(terms) == 1)


class _Same:
    """What means the same as a phrase."""

    def __init__(self, words: Vocabulary) -> None:
        self._groups: dict[Stems, list[Meaning]] = {}
        for group in words.groups:
            # What is said loosely would cry wolf too.
            if group.weight >= LEAST_WEIGHT and not group.source.startswith(OWNERS):
                for phrase in dict.fromkeys(map(stems_of, group.phrases)):
                    self._groups.setdefault(phrase, []).append(group)

    def ways(self, phrase: str) -> Iterator[Way]:
        """The phrase word by word, and with words in a row told by one name."""
        cut = _cut(phrase)
        if not cut:
            return
        own = {term for term, _ in cut}
        alone = len(cut) == 1
        singles = [[term, *self._of(word, own, alone=alone)] for term, word in cut]
        # What is denied must be the very next word: of "no brakes" each word alone says something else.
        yield [["".join(term for term, _ in cut)]] if NOT in own else singles
        for start in range(len(cut)):
            for end in range(start + 2, len(cut) + 1):
                whole = end - start == len(cut)
                names = self._of(" ".join(word for _, word in cut[start:end]), own, alone=whole)
                if names and not any(term == NOT for term, _ in (*cut[:start], *cut[end:])):
                    yield [*singles[:start], names, *singles[end:]]

    def _of(self, written: str, own: Collection[str], *, alone: bool) -> list[str]:
        """What means the same as written, but for what the phrase says itself."""
        found: dict[str, float] = {}
        for group in self._groups.get(stems_of(written), ()):
            for term in (_joined(each) for each in group.phrases if len(_cut(each)) <= LONGEST):
                found[term] = max(group.weight, found.get(term, 0.0))
        least = LEAST_ALONE if alone else LEAST_WEIGHT
        said = {*own, _joined(written), "", NOT}
        return [term for term, weight in found.items() if weight >= least and term not in said]


def _cut(phrase: str) -> list[tuple[str, str]]:
    """Term and word of each telling word."""
    return [(stem(word), word) for word in words_of(phrase) if word not in STOP_WORDS]


def _joined(phrase: str) -> str:
    return "".join(term for term, _ in _cut(phrase))
