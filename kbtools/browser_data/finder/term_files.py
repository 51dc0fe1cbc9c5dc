"""The files of terms: which entries have each, and what it weighs there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

import numpy as np

from kbtools.browser_data.finder.arrays import Ints, SmallInts
from kbtools.browser_data.finder.postings import Postings
from kbtools.browser_data.finder.shards import MOST_NUMBERS
from kbtools.browser_data.packed import json_bytes

_AT_ONCE: Final = 200_000
"""Numbers that are written at once."""


def shelved_terms(found: Postings) -> tuple[list[str], Iterator[bytes]]:
    """The first term of each file, and the files as JSON, one at a time.

    A file is `{term: [[step, …], [weight, …]], …}`: how far each entry lies behind the one before, and the weights.
    """
    runs = list(_runs(np.diff(found.starts)[found.rows] * 2 + 4))
    return [found.terms[first] for first, _ in runs], _files(found, runs)


def _files(found: Postings, runs: Iterable[tuple[int, int]]) -> Iterator[bytes]:
    written = list(_written(found))
    rows = found.rows.tolist()
    for first, end in runs:
        terms = zip(found.terms[first:end], rows[first:end], strict=True)
        yield b"{" + b",".join(json_bytes(term) + b":" + written[row] for term, row in terms) + b"}"


def _written(found: Postings) -> Iterator[bytes]:
    """The JSON of each row, some of them at a time."""
    digits = _Digits(int(max(found.places.max(initial=0), found.weights.max(initial=0))))
    first, many = 0, len(found.starts) - 1
    while first < many:
        end = int(np.searchsorted(found.starts, found.starts[first] + _AT_ONCE, "right")) - 1
        end = min(max(end, first + 1), many)
        here = slice(int(found.starts[first]), int(found.starts[end]))
        starts = found.starts[first : end + 1] - here.start
        places = found.places[here]
        steps = np.diff(places, prepend=0)
        begins = starts[:-1][starts[1:] > starts[:-1]]
        steps[begins] = places[begins]
        step_text, step_ends = digits.text(steps, starts)
        weight_text, weight_ends = digits.text(found.weights[here], starts)
        for a, b, c, d in zip(step_ends, step_ends[1:], weight_ends, weight_ends[1:], strict=False):
            yield b"[[" + step_text[a : b - 1] + b"],[" + weight_text[c : d - 1] + b"]]"
        first = end


def _runs(sizes: Ints) -> Iterator[tuple[int, int]]:
    """First and end of as many terms as one file takes, or of one."""
    first, filled = 0, 0
    for place, size in enumerate(sizes.tolist()):
        if place > first and filled + size > MOST_NUMBERS:
            yield first, place
            first, filled = place, 0
        filled += size
    if len(sizes):
        yield first, len(sizes)


class _Digits:
    """Writes numbers, many at once: each is looked up in a table of all that there are."""

    def __init__(self, top: int) -> None:
        self._table = np.array([f"{number}," for number in range(top + 1)], "S")
        self._lengths = np.char.str_len(self._table)

    def text(self, numbers: SmallInts, starts: Ints) -> tuple[bytes, list[int]]:
        """The numbers with a comma behind each, and where in that text those at some places begin."""
        # What is shorter than the longest is filled up with zero bytes.
        text = self._table[numbers].tobytes().translate(None, b"\0")
        return text, np.append(0, np.cumsum(self._lengths[numbers]))[starts].tolist()
