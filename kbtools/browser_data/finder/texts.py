"""The texts of entries as numbers: each text is cut once, however many entries have it; each term has one number."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from kbtools.browser_data.finder.arrays import Rows, rows_of
from kbtools.browser_data.finder.terms import LIGHT_WORDS, STOP_WORDS, cut, stem


class Numbers(dict[str, int]):
    """Each text that was asked for by its number, from 0; a new one gets the next."""

    def __missing__(self, text: str) -> int:
        number = self[text] = len(self)
        return number


class _Cut(dict[str, int]):
    """Each text by its number; a new one is cut."""

    def __init__(self, cut: Callable[[str], None]) -> None:
        super().__init__()
        self._cut = cut

    def __missing__(self, text: str) -> int:
        number = self[text] = len(self)
        self._cut(text)
        return number


class Texts:
    """Texts cut into terms."""

    def __init__(self) -> None:
        self.terms = Numbers()
        """Number of each term."""
        self.numbers = _Cut(self._cut)
        """Number of each text; one that is new is cut, so that all of them are asked for before the terms are."""
        self._words: dict[str, tuple[int, bool]] = {}
        self._own: list[list[int]] = []
        self._lent: list[list[int]] = []

    def own(self) -> Rows:
        """Of each text the terms that it is found by, as often as they stand there."""
        return rows_of(self._own)

    def lent(self) -> Rows:
        """Of each text the terms that it lends, once: those of words that say something by themselves."""
        return rows_of(self._lent)

    def words(self) -> Iterator[str]:
        """Every word of the texts as it is written."""
        return iter(self._words)

    def _cut(self, text: str) -> None:
        words, joined = cut(text)
        known = self._words
        told = [known.get(word) or self._word(word) for word in words]
        own = [number for number, _ in told if number >= 0]
        self._own.append(own + [self.terms[stem(word)] for word in joined] if joined else own)
        self._lent.append(list({number for number, lends in told if lends}))

    def _word(self, word: str) -> tuple[int, bool]:
        """Number of a word's term, -1 where it says nothing, and whether it may be lent."""
        told = word not in STOP_WORDS
        found = self._words[word] = (self.terms[stem(word)] if told else -1, told and word not in LIGHT_WORDS)
        return found
