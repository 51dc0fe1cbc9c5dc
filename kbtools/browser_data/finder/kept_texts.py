"""The words of texts, remembered from run to run: an edit touches few texts, and all are asked about."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, Final

from kbtools.browser_data.finder.kept_rows import KnownRows, from_json
from kbtools.model.memory import Memory, shaped

_WORK: Final = "finder's texts"


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """Texts that were cut before."""

    words: Sequence[str] = ()
    """Every word of theirs, by its number; behind a hyphen what is several words written together."""
    texts: KnownRows = field(default_factory=KnownRows)
    """Of each text its words in their order."""


class KeptTexts:
    """What a memory knows of the texts of a base."""

    def __init__(self, memory: Memory, base: bytes) -> None:
        """`base`: tells the texts of one base from those of another. What a text is cut into does not depend on it."""
        self._memory = memory
        self._base = base

    def known(self) -> Known | None:
        """What is remembered; None where nothing is, or nothing of use."""
        return shaped(self._memory.worked_out(_WORK, self._base), _known)

    def keep(self, found: Known) -> None:
        """Remember this in place of what is remembered."""
        row = {"words": list(found.words), **found.texts.as_json()}
        self._memory.keep_worked_out(_WORK, self._base, row)


def _known(kept: Any) -> Known:
    """As it was kept; raises a ValueError where it never was."""
    words = list(kept["words"])
    if not {*map(type, words)} <= {str} or len({*words}) != len(words):
        raise ValueError
    return Known(words=words, texts=from_json(kept, len(words)))
