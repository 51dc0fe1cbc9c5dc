"""The words of texts, remembered from run to run in one row: an edit touches few texts, and all are asked about."""

from __future__ import annotations

import base64
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from kbtools.browser_data.finder.arrays import Ints, Rows, starts_of
from kbtools.model.memory import Memory, shaped

_WORK: Final = "finder's texts"
_FEW: Final = 32
"""Of so many texts one may be new, and the row is not written anew: cutting that one is less work."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """Texts that were cut before."""

    words: Sequence[str]
    """Every word of theirs, by its number; behind a hyphen what is several words written together."""
    texts: Mapping[str, int]
    """Which row each text has."""
    rows: Rows
    """Of each text its words in their order."""


NOTHING_KNOWN: Final = Known(words=(), texts={}, rows=Rows(starts=np.zeros(1, np.int64), values=np.zeros(0, np.int64)))


class KeptTexts:
    """What a memory knows of the texts of a base."""

    def __init__(self, memory: Memory, base: bytes) -> None:
        """`base`: tells the texts of one base from those of another. What a text is cut into does not depend on it."""
        self._memory = memory
        self._base = base

    def known(self) -> Known | None:
        """What is remembered; None where nothing is, or nothing of use."""
        return shaped(self._memory.worked_out(_WORK, self._base), _known)

    def keep(self, found: Known, new: int) -> None:
        """Remember this in place of what is remembered, if enough of the texts are new."""
        if new * _FEW > len(found.texts):
            row = {
                "words": list(found.words),
                "texts": list(found.texts),
                "lengths": _packed(np.diff(found.rows.starts)),
                "numbers": _packed(found.rows.values),
            }
            self._memory.keep_worked_out(_WORK, self._base, row)


def _known(kept: Any) -> Known:
    """As it was kept; raises a ValueError where it never was."""
    words, texts = list(kept["words"]), list(kept["texts"])
    lengths, numbers = _unpacked(kept["lengths"]), _unpacked(kept["numbers"])
    of_text = dict(zip(texts, range(len(texts)), strict=True))
    if (
        not {*map(type, words), *map(type, texts)} <= {str}
        or len(of_text) != len(texts)
        or len({*words}) != len(words)
        or not 0 <= lengths.min(initial=0) <= lengths.max(initial=0) <= len(numbers)
        or len(lengths) != len(texts)
        or lengths.sum() != len(numbers)
        or (len(numbers) and not 0 <= numbers.min() <= numbers.max() < len(words))
    ):
        raise ValueError
    return Known(words=words, texts=of_text, rows=Rows(starts=starts_of(lengths), values=numbers))


def _packed(numbers: Ints) -> str:
    return base64.b64encode(numbers.astype("<i4").tobytes()).decode()


def _unpacked(text: str) -> Ints:
    return np.frombuffer(base64.b64decode(text, validate=True), "<i4").astype(np.int64)
