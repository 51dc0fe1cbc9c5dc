"""Lines no wider than the window: broken between words, with what follows indented below."""

from __future__ import annotations

import re
from typing import Final

_COLOUR: Final = re.compile("\x1b\\[[0-9;]*m")
_WORD: Final = re.compile(r"\S+\s*")
_NARROWEST: Final = 30
"""Columns below which nothing is broken: every line would be."""


def fitted(text: str, columns: int) -> str:
    """Lines of text, each of at most so many columns if its words let it.

    Args:
        text: whole lines; colours in them take no room.
        columns: of the window.
    """
    if columns < _NARROWEST:
        return text
    return "".join(_broken(line, columns) for line in text.splitlines(keepends=True))


def _broken(line: str, columns: int) -> str:
    body = line.rstrip("\n")
    if _long(body) <= columns:
        return line
    indent = len(body) - len(body.lstrip(" "))
    below = " " * (indent or 4)
    rows = [" " * indent]
    for word in _WORD.findall(body[indent:]):
        if rows[-1].strip() and _long(rows[-1]) + _long(word.rstrip()) > columns:
            rows[-1] = rows[-1].rstrip()
            rows.append(below)
        rows[-1] += word
    return "\n".join(rows) + line[len(body) :]


def _long(text: str) -> int:
    return len(_COLOUR.sub("", text))
