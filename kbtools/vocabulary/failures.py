"""In which way a part fails. The same part that fails in another way is another fault.

`data/failures.yml` has the ways.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from kbtools.model.vocabulary import Group
from kbtools.vocabulary.stems import sequence, written


class Failures:
    """The ways, made ready for reading texts."""

    def __init__(self, ways: Iterable[Group]) -> None:
        """Take the words of each way."""
        every = tuple(ways)
        self._by_first: dict[str, list[tuple[tuple[str, ...], int]]] = {}
        for number, phrases in enumerate(every):
            for phrase in phrases:
                if words := tuple(sequence(phrase)):
                    self._by_first.setdefault(words[0], []).append((words, number))
        self.written: Final = written(phrase for way in every for phrase in way)
        """Every word of the ways without its ending → as it is written."""

    def named(self, texts: Iterable[str]) -> frozenset[int]:
        """The numbers of the ways that the texts name."""
        found: set[int] = set()
        for text in texts:
            words = sequence(text)
            for place, first in enumerate(words):
                for phrase, number in self._by_first.get(first, ()):
                    if tuple(words[place : place + len(phrase)]) == phrase:
                        found.add(number)
        return frozenset(found)


def ways_alike(left: frozenset[int], right: frozenset[int]) -> float:
    """1 if they name a common way."""
    return 1.0 if left & right else 0.0
