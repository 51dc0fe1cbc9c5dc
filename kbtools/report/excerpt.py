"""A line of a file as a terminal can show it, with a place in it marked."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from itertools import accumulate

from kbtools.diagnostics import Mark
from kbtools.text.terminal import written

_CUT = "..."
_MARGIN = len("99999 | ")
"""What stands before a quoted line."""


def quoted(lines: Sequence[str], mark: Mark, width: int) -> tuple[str, str, str] | None:
    """A line and a caret below the place, ready to print.

    Returns:
        What stands before the line, the line, and the caret with the blanks before it; None where there is no such
        line. A place after the last character is that after the line.
    """
    if not 1 <= mark.line <= len(lines) or not lines[mark.line - 1].strip():
        return None
    line, before = _around(lines[mark.line - 1], mark.column - 1, max(width - _MARGIN, 20))
    return f"{mark.line:>5} | ", line, f"{' ' * before}^"


def columns(text: str) -> int:
    """How many columns of a terminal a printable text takes.

    Source: Unicode Standard Annex 11, East Asian Width: wide and fullwidth characters take two, in the fixed-pitch
    fonts of terminals. Combining marks (general categories Mn and Me) take none.
    """
    return len(text) if text.isascii() else sum(map(_columns, text))


def _columns(character: str) -> int:
    if unicodedata.category(character) in {"Mn", "Me"}:
        return 0
    return 2 if unicodedata.east_asian_width(character) in {"W", "F"} else 1


def _around(line: str, at: int, width: int) -> tuple[str, int]:
    """A window on the line with the code point `at` in it, and how many columns stand before that."""
    at = min(max(at, 0), len(line))
    # Each character takes up to ten columns; what is surely outside the window need not be looked at.
    first = max(0, at - 2 * width)
    pieces = [written(each) for each in line[first : at + 2 * width]]
    at -= first
    ends = list(accumulate(map(columns, pieces), initial=0))
    if first == 0 and len(line) <= at + 2 * width and ends[-1] <= width:
        return "".join(pieces), ends[at]
    room = width - 2 * len(_CUT)
    # A third of the room goes before the place: what follows it usually says more.
    start = next(index for index in range(at + 1) if ends[at] - ends[index] <= room // 3)
    stop = max(index for index in range(at, len(ends)) if index == at or ends[index] - ends[start] <= room)
    head = _CUT if first + start > 0 else ""
    tail = _CUT if first + stop < len(line) else ""
    return f"{head}{''.join(pieces[start:stop])}{tail}", len(head) + ends[at] - ends[start]
