"""The texts of entries as numbers: each text is cut once, however many entries have it; each term has one number."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import numpy as np

from kbtools.browser_data.finder.arrays import Ints, Rows, firsts, ints, starts_of
from kbtools.browser_data.finder.kept_texts import KeptTexts, Known
from kbtools.browser_data.finder.terms import LIGHT_WORDS, STOP_WORDS, cut, stem

_TOGETHER = "-"
"""Stands before several words that are written together, since these are words of no text."""


_FEW = 32
"""Of so many texts one may be new, and what is remembered is not written anew: cutting that one is less work."""


class Numbers(dict[str, int]):
    """Each text that was asked for by its number, from 0; a new one gets the next."""

    def __missing__(self, text: str) -> int:
        number = self[text] = len(self)
        return number


class Texts:
    """Texts cut into terms. A term has its number when the terms of all texts were asked for."""

    def __init__(self, kept: KeptTexts | None = None) -> None:
        self.terms = Numbers()
        """Number of each term."""
        self.numbers: dict[str, int] = {}
        """Number of each text."""
        self._kept = kept
        known = (None if kept is None else kept.known()) or Known()
        self._known = known.texts
        self._words = Numbers(zip(known.words, range(len(known.words)), strict=True))
        self._settled = 0
        self._new = 0

    def cut(self, texts: Iterable[str]) -> Ints:
        """Cut texts; gives their numbers."""
        asked = list(texts)
        numbers = self.numbers
        # Most texts stand in several entries, and all of this is done a quarter of a million times.
        for text in [text for text in dict.fromkeys(asked) if text not in numbers]:
            numbers[text] = len(numbers)
        return ints(map(numbers.__getitem__, asked))

    def own(self) -> Rows:
        """Of each text the terms that it is found by, as often as they stand there."""
        return self._terms(self._term)

    def lent(self) -> Rows:
        """Of each text the terms that it lends, once: those of words that say something by themselves."""
        rows, many = self._terms(self._lent_term), max(1, len(self.terms))
        keys = np.repeat(np.arange(len(self.numbers)), np.diff(rows.starts)) * many + rows.values
        keys.sort()
        text, term = np.divmod(keys[firsts(keys)], many)
        return Rows(starts=starts_of(np.bincount(text, minlength=len(self.numbers))), values=term)

    def words(self) -> Iterable[str]:
        """Every word of the texts as it is written."""
        written = list(self._words)
        used = (written[number] for number in np.unique(self._rows().values).tolist())
        return (word for word in used if not word.startswith(_TOGETHER))

    def keep(self) -> None:
        """Have remembered what was asked about, and nothing else, if enough of it is new."""
        self._rows()
        if self._kept is not None and self._new * _FEW > len(self.numbers):
            written = list(self._words)
            used, rows = self._known.numbered_anew()
            self._kept.keep(Known(words=[written[number] for number in used], texts=rows))

    def _rows(self) -> Rows:
        """Of each text that was asked for its words; then nothing else is known any more."""
        if self._settled < len(self.numbers):
            self._known, new = self._known.of(self.numbers, self._cut)
            self._settled = len(self.numbers)
            self._new += new
        return self._known.rows

    def _cut(self, text: str) -> list[int]:
        words, joined = cut(text)
        numbers = self._words
        return [numbers[word] for word in words] + [numbers[_TOGETHER + word] for word in joined]

    def _terms(self, term_of: Callable[[str], int]) -> Rows:
        """Of each text the terms of its words; those of which there is none stand nowhere."""
        rows = self._rows()
        # Of words that only other runs asked about there are no terms.
        terms = np.full(len(self._words), -1, np.int64)
        written = list(self._words)
        for number in np.unique(rows.values).tolist():
            terms[number] = term_of(written[number])
        values = terms[rows.values]
        some = values >= 0
        return Rows(starts=np.append(0, np.cumsum(some))[rows.starts], values=values[some])

    def _term(self, word: str) -> int:
        if word.startswith(_TOGETHER):
            return self.terms[stem(word.removeprefix(_TOGETHER))]
        return -1 if word in STOP_WORDS else self.terms[stem(word)]

    def _lent_term(self, word: str) -> int:
        return -1 if word in LIGHT_WORDS or word.startswith(_TOGETHER) else self._term(word)
