"""How large a handbook is about: sheets of A4 and bytes, reckoned from its letters and pieces.

The figures were fitted to the demo's handbooks, printed by a browser; a test holds them against printed sheets.
"""

from __future__ import annotations

import dataclasses
import functools
import math
from collections.abc import Iterable
from typing import Final

_FRAME: Final = 16_000
"""Bytes of header, finder and foot."""
_PIECE: Final = 20
"""Bytes of markup around a text."""
_FRONT: Final = 2.0
"""Sheets of the cover and what stands alone."""
_SHEET: Final = 5_000
"""Letters on a sheet."""


@dataclasses.dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """About how large a handbook is."""

    sheets: int
    """Sheets of A4."""
    kilobytes: int
    """Of its page, in thousands of bytes, without styles and scripts."""


Weight = tuple[int, int]
"""Letters, and pieces of text."""


def size_of(weights: Iterable[Weight]) -> Size:
    """Reckoned from the weights of all that its template is given."""
    told = list(weights)
    letters, pieces = sum(each for each, _ in told), sum(each for _, each in told)
    return Size(
        sheets=max(1, math.ceil(_FRONT + letters / _SHEET)),
        kilobytes=round((_FRAME + letters + pieces * _PIECE) / 1000),
    )


def weight_of(value: object) -> Weight:
    """Letters and pieces of text in a value, however deep."""
    letters = pieces = 0
    to_do = [value]
    while to_do:
        each = to_do.pop()
        kind = type(each)
        if kind is str:
            letters += len(each)  # type: ignore[arg-type]
            pieces += bool(each)
        elif kind is tuple:
            to_do += each  # type: ignore[arg-type]
        else:
            to_do += [getattr(each, name) for name in _names(kind)]  # type: ignore[arg-type]  # a class can be hashed
    return letters, pieces


@functools.cache
def _names(kind: type) -> tuple[str, ...]:
    """Names of the fields of a dataclass; none of anything else."""
    return tuple(each.name for each in dataclasses.fields(kind)) if dataclasses.is_dataclass(kind) else ()
