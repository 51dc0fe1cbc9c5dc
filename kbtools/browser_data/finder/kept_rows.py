"""Numbers that are remembered of texts: many texts in one row of a memory, and what is new is worked out."""

from __future__ import annotations

import base64
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from kbtools.browser_data.finder.arrays import Ints, Rows, ints, rows_of, starts_of


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownRows:
    """What is known of some texts."""

    texts: Mapping[str, int] = field(default_factory=dict)
    """Which row each text has."""
    rows: Rows = field(default_factory=lambda: rows_of([]))
    """The numbers."""

    def of(self, texts: Collection[str], make: Callable[[str], Sequence[int]]) -> tuple[KnownRows, int]:
        """The same of exactly these texts, in their order, and how many of them are new; these are made."""
        found = list(map(self.texts.get, texts))
        more = rows_of(make(text) for text, row in zip(texts, found, strict=True) if row is None)
        many = len(more.starts) - 1
        new = iter(range(len(self.texts), len(self.texts) + many))
        every = Rows(
            starts=np.append(self.rows.starts, more.starts[1:] + len(self.rows.values)),
            values=np.append(self.rows.values, more.values),
        )
        values, lengths = every.those(ints(next(new) if row is None else row for row in found))
        rows = Rows(starts=starts_of(lengths), values=values)
        return KnownRows(texts=dict(zip(texts, range(len(found)), strict=True)), rows=rows), many

    def numbered_anew(self) -> tuple[list[int], KnownRows]:
        """The numbers that stand there at all, rising, and the rows with the place of each among these instead."""
        used, values = np.unique(self.rows.values, return_inverse=True)
        rows = Rows(starts=self.rows.starts, values=values.reshape(-1))
        return used.tolist(), KnownRows(texts=self.texts, rows=rows)

    def as_json(self) -> dict[str, Any]:
        """What JSON can hold; numbers as four bytes each, since lists would take ten times as long to read."""
        return {
            "texts": list(self.texts),
            "lengths": _packed(np.diff(self.rows.starts)),
            "numbers": _packed(self.rows.values),
        }


def from_json(kept: Any, below: int) -> KnownRows:
    """As it was kept.

    Args:
        kept: what a memory gave.
        below: all numbers are below this.

    Raises:
        LookupError, TypeError, ValueError: it never was kept so.
    """
    texts = list(kept["texts"])
    lengths, numbers = _unpacked(kept["lengths"]), _unpacked(kept["numbers"])
    row_of = dict(zip(texts, range(len(texts)), strict=True))
    if (
        not {*map(type, texts)} <= {str}
        or not len(row_of) == len(texts) == len(lengths)
        or lengths.min(initial=0) < 0
        or lengths.sum() != len(numbers)
        or (len(numbers) and not 0 <= numbers.min() <= numbers.max() < below)
    ):
        raise ValueError
    return KnownRows(texts=row_of, rows=Rows(starts=starts_of(lengths), values=numbers))


def _packed(numbers: Ints) -> str:
    return base64.b64encode(numbers.astype("<i4").tobytes()).decode()


def _unpacked(text: str) -> Ints:
    return np.frombuffer(base64.b64decode(text, validate=True), "<i4").astype(np.int64)
