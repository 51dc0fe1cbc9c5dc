"""The comments of a YAML text: what stands behind a `#` outside every scalar.

libyaml drops comments, but says where each scalar begins and ends. Between two scalars stand only signs, blanks and
comments, so a `#` there with a blank or a line's start before it begins one (YAML 1.2, section 6.6). A block scalar
may have one behind its `|` or `>`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

_COMMENT = re.compile(r"(?<![^ \t\r\n])#[^\r\n]*")
_LINE = re.compile(r"[^\r\n]*")


class Comment(NamedTuple):
    """One comment, up to the end of its line."""

    start: int
    """Index in the text of the code point behind its `#`."""
    text: str
    """What stands there, hostile."""


class Piece(NamedTuple):
    """Where a scalar stands in the text, and how it is written."""

    start: int
    """Index of its first code point; of a block scalar of the `|` or `>`."""
    end: int
    """Index behind its last code point."""
    block: bool
    """Whether it is a block scalar, whose first line is no part of the value."""


def comments_between(text: str, scalars: Iterable[Piece]) -> Iterator[Comment]:
    """The comments of a text, in order; takes time in proportion to the text.

    Args:
        text: the whole file.
        scalars: every scalar of it, in order.
    """
    done = 0
    for piece in scalars:
        yield from _comments(text, done, piece.start)
        if piece.block:
            line = _LINE.match(text, piece.start)
            yield from _comments(text, piece.start, line.end() if line else piece.start)
        done = max(done, piece.end)
    yield from _comments(text, done, len(text))


def _comments(text: str, start: int, end: int) -> Iterator[Comment]:
    for match in _COMMENT.finditer(text, start, end):
        yield Comment(match.start() + 1, match[0][1:])
