"""Cuts the finder's data into small files, so that an answer needs a few of them whatever the size of the base."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Final, Generic, TypeVar

from kbtools.browser_data.finder.terms import sort_key

Value = TypeVar("Value")

PER_FILE: Final = 16
"""Entries in one file: an answer is shown from one of them, so a larger file would mostly be fetched in vain."""

MOST_NUMBERS: Final = 5000
"""Numbers in one file of postings, unless a single term has more."""

MOST_WORDS: Final = 3000
"""Words in one file of the vocabulary."""

MOST_CODES: Final = 400
"""Codes in one file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf(Generic[Value]):
    """A sorted mapping in several files."""

    first: tuple[str, ...]
    """The first key of each file, in the order of `words.sort_key`: what a reader needs to pick the file."""
    files: tuple[dict[str, Value], ...]
    """The files."""


def shelve(pairs: Iterable[tuple[str, Value]], size: Callable[[Value], int], most: int) -> Shelf[Value]:
    """Cut a mapping into runs of its sorted keys, each of at most `most` by `size`, or of one key."""
    files: list[dict[str, Value]] = []
    filled = most + 1
    for key, value in sorted(pairs, key=lambda pair: sort_key(pair[0])):
        needed = size(value)
        if filled + needed > most:
            files.append({})
            filled = 0
        files[-1][key] = value
        filled += needed
    return Shelf(first=tuple(next(iter(file)) for file in files), files=tuple(files))


def gaps(places: Sequence[int]) -> list[int]:
    """Rising numbers as the steps between them, the first one from 0."""
    return [place - before for before, place in zip([0, *places], places, strict=False)]


def vocabulary(words: Iterable[str]) -> dict[str, Shelf[int]]:
    """The words twice: sorted by their beginnings, and turned round and sorted by their ends.

    A word with one letter amiss has either its beginning or its end right, so it is found in one file of each.
    """
    known = set(words)
    return {
        "start": shelve(((word, 1) for word in known), lambda _: 1, MOST_WORDS),
        "end": shelve(((word[::-1], 1) for word in known), lambda _: 1, MOST_WORDS),
    }
