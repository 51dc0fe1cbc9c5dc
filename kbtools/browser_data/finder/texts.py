"""The texts of entries as numbers: each text is cut once, however many entries have it; each term has one number."""

from __future__ import annotations

from collections.abc import Callable, Iterable

import numpy as np

from kbtools.browser_data.finder.arrays import Rows, firsts, ints, rows_of, starts_of
from kbtools.browser_data.finder.kept_texts import NOTHING_KNOWN, KeptTexts, Known
from kbtools.browser_data.finder.terms import LIGHT_WORDS, STOP_WORDS, cut, stem

_TOGETHER = "-"
"""Stands before several words that are written together, since these are words of no text."""


class Numbers(dict[str, int]):
    """Each text that was asked for by its number, from 0; a new one gets the next."""

    def __missing__(self, text: str) -> int:
        number = self[text] = len(self)
        return number


class _Asked(dict[str, int]):
    """Each text that was asked for by its number; of a new one its row is looked for."""

    def __init__(self, row: Callable[[str], int]) -> None:
        super().__init__()
        self.rows: list[int] = []
        self._row = row

    def __missing__(self, text: str) -> int:
        number = self[text] = len(self)
        self.rows.append(self._row(text))
        return number


class Texts:
    """Texts cut into terms. All texts are asked for before their terms are; these get their numbers when they are."""

    def __init__(self, kept: KeptTexts | None = None) -> None:
        self.terms = Numbers()
        """Number of each term."""
        self.numbers = _Asked(self._row)
        """Number of each text."""
        self._kept = kept
        self._known = (None if kept is None else kept.known()) or NOTHING_KNOWN
        self._words = Numbers(zip(self._known.words, range(len(self._known.words)), strict=True))
        self._new: list[list[int]] = []

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
        """Have remembered what was asked about, and nothing else."""
        if self._kept is not None:
            rows, written = self._rows(), list(self._words)
            used, values = np.unique(rows.values, return_inverse=True)
            found = Known(
                words=[written[number] for number in used.tolist()],
                texts=self.numbers,
                rows=Rows(starts=rows.starts, values=values.reshape(-1)),
            )
            self._kept.keep(found, len(self._new))

    def _row(self, text: str) -> int:
        row = self._known.texts.get(text)
        return self._cut(text) if row is None else row

    def _cut(self, text: str) -> int:
        words, joined = cut(text)
        numbers = self._words
        self._new.append([numbers[word] for word in words] + [numbers[_TOGETHER + word] for word in joined])
        return len(self._known.texts) + len(self._new) - 1

    def _rows(self) -> Rows:
        """Of each text that was asked for its words."""
        known, new = self._known.rows, rows_of(self._new)
        every = Rows(
            starts=np.append(known.starts, new.starts[1:] + len(known.values)),
            values=np.append(known.values, new.values),
        )
        asked = ints(self.numbers.rows)
        values, _ = every.of(asked)
        return Rows(starts=starts_of(every.starts[asked + 1] - every.starts[asked]), values=values)

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
