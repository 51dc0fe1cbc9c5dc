"""Lines for a terminal: within its width, and nothing in them can control it."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

from kbtools.text.terminal import shown

_WIDTH = 100
_SPACES = str.maketrans("\u00a0\u202f", "  ")


def as_text(lines: Iterable[str]) -> str:
    """Lines for a terminal, which nothing in them can control."""
    # Spaces that hold a figure and its unit together are for pages; a terminal takes plain ones.
    return "".join(f"{shown(line.translate(_SPACES))}\n" for line in lines)


def wrapped(text: str, indent: str, further: str | None = None) -> list[str]:
    """A paragraph within the width of a terminal; `further` begins its lines after the first."""
    return textwrap.wrap(
        " ".join(text.split()),
        _WIDTH,
        initial_indent=indent,
        subsequent_indent=indent if further is None else further,
        break_long_words=False,
        break_on_hyphens=False,
    )
