"""Where in a text something was seen, and the text made even before looking."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple


class Span(NamedTuple):
    """A piece of a text."""

    start: int
    """Index of its first code point."""
    end: int
    """Index after its last one."""


def apart(spans: Iterable[Span]) -> Iterator[Span]:
    """The spans in order, without those that begin inside one before: one thing may be seen in several ways."""
    end = 0
    for span in sorted(spans, key=lambda each: (each.start, -each.end)):
        if span.start >= end:
            yield span
            end = span.end


def has_any(text: str, hints: Iterable[str]) -> bool:
    """Whether one of several plain pieces stands in a text: much faster than a pattern that begins in many ways."""
    return any(map(text.__contains__, hints))


_EVEN = {
    # Full-width forms (Unicode block FF00-FFEF) stand for the ASCII characters in the same order.
    **{0xFF01 + step: 0x21 + step for step in range(0x5E)},
    # Digits of the Arabic scripts and of Devanagari (Unicode blocks 0600-06FF, 0900-097F).
    **{first + digit: 0x30 + digit for first in (0x0660, 0x06F0, 0x0966) for digit in range(10)},
    **dict.fromkeys((0x00A0, 0x2007, 0x2009, 0x202F, 0x3000), 0x20),
    **dict.fromkeys((0x2010, 0x2011, 0x2012, 0x2013, 0x2014, 0x2212), 0x2D),
}
_ODD = re.compile(f"[{''.join(map(chr, _EVEN))}]")
_URL = re.compile(r"(?:https?://|www\.)[^\s<>()\[\]\"]+", re.IGNORECASE)


def even(text: str) -> str:
    """The text with full-width signs, digits, blanks and hyphens as ASCII has them; every index stays what it was."""
    if text.isascii() or _ODD.search(text) is None:
        return text
    return text.translate(_EVEN)


def without_urls(text: str) -> str:
    """The text with spaces for web addresses, whose digits mean nothing; every index stays what it was."""
    if "://" not in text and "www." not in text:
        return text
    return _URL.sub(lambda match: " " * len(match[0]), text)


def without_underscores(text: str) -> str:
    """The text with blanks for its underscores, which join words in names of files; every index stays what it was."""
    return text.replace("_", " ")


def hidden(text: str, span: Span) -> str:
    """What was seen as a report shows it: enough to find it, not enough to use it. Reports are often public."""
    piece = text[span.start : span.end]
    return f"{piece[:3]}…" if len(piece) > 5 else f"{piece[:1]}…"
