"""Equal values of a reading as one object: most words, ids and pointers of an entry stand in many others too.

What is handed out is never changed by anybody, so nobody can tell; a large base takes a third of the memory.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from kbtools.model.money import Range
from kbtools.model.writing import Writing

T = TypeVar("T")


_LONGEST = 60
"""Characters: a longer text is a sentence, which hardly ever stands twice."""


class Below(dict[str | int, str]):
    """Key or index to the pointer of what stands there below one pointer; made when it is first asked for."""

    def __init__(self, at: str) -> None:
        super().__init__()
        self._at = at

    def __missing__(self, step: str | int) -> str:
        pointer = self[step] = f"{self._at}/{step}"
        return pointer


class Once:
    """Knows what one reading has met, and is thrown away with it: what is in use stays by itself."""

    __slots__ = ("_below", "_parsed", "_ranges", "_texts", "_tuples", "word")

    def __init__(self) -> None:
        words: dict[str, str] = {}
        self.word: Callable[[str, str], str] = words.setdefault
        """Given a word that a schema lists twice, the one that is equal to it: the bare method of a dictionary."""
        self._texts: dict[str, str] = {}
        self._tuples: dict[tuple[Any, ...], tuple[Any, ...]] = {}
        self._ranges: dict[tuple[float, float], Range] = {}
        self._parsed: dict[tuple[Callable[[str], Any], str], Any] = {}
        self._below: dict[str, Below] = {}

    def text(self, value: Any) -> str:
        """A value as a text."""
        text = value if type(value) is str else str(value)
        return self._texts.setdefault(text, text) if len(text) <= _LONGEST else text

    def texts(self, values: Iterable[Any]) -> tuple[str, ...]:
        """Values as texts, those left out that are none."""
        texts = tuple([self.text(each) for each in values if each is not None])
        return self._tuples.setdefault(texts, texts)

    def below(self, at: str) -> Below:
        """The pointers of what stands in the mapping or list at a pointer, by key or index."""
        known = self._below.get(at)
        if known is None:
            known = self._below[at] = Below(at)
        return known

    def row(self, values: tuple[T, ...]) -> tuple[T, ...]:
        """A tuple of texts, or of tuples of texts."""
        return self._tuples.setdefault(values, values)

    def writings(self, writings: Iterable[Writing]) -> tuple[Writing, ...]:
        """Writings with their texts and pointers each once."""
        return tuple(
            Writing(
                path=each.path,
                kind=each.kind,
                texts=tuple([self.text(text) for text in each.texts]),
                pointers=self.texts(each.pointers),
                starts=each.starts,
            )
            for each in writings
        )

    def range(self, low: float, high: float) -> Range:
        """A range of numbers."""
        if not (low and high):
            # A zero is equal to the one with a minus before it, and not the same.
            return Range(low=low, high=high)
        known = self._ranges.get((low, high))
        if known is None:
            known = self._ranges[low, high] = Range(low=low, high=high)
        return known

    def parsed(self, parse: Callable[[str], T], text: str) -> T:
        """What a function makes of a text."""
        if (parse, text) not in self._parsed:
            self._parsed[parse, text] = parse(text)
        value: T = self._parsed[parse, text]
        return value
