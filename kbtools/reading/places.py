"""From JSON pointers to places in a file."""

from __future__ import annotations

import functools
import re
from bisect import bisect_right
from dataclasses import dataclass

from kbtools.diagnostics import START, Mark
from kbtools.reading.shape import Pointer
from kbtools.reading.source import line_starts
from kbtools.reading.tree import Mapping, Node, Sequence, parse

_INDEX = re.compile(r"0|[1-9][0-9]{0,8}", re.ASCII)
"""The place in a list, as RFC 6901 writes it; no list has more than nine digits of members."""


def show(pointer: Pointer) -> str:
    """As RFC 6901 writes it: `/causes/0/fix`."""
    return "".join(f"/{str(step).replace('~', '~0').replace('/', '~1')}" for step in pointer)


def steps(pointer: str) -> tuple[str, ...]:
    """The steps of a written pointer."""
    return tuple(step.replace("~1", "/").replace("~0", "~") for step in pointer.split("/")[1:])


def value_place(root: Node | None, pointer: Pointer) -> Mark:
    """Where the value at `pointer` starts; where it is missing, the start of the nearest thing around it."""
    node = root
    for step in pointer:
        inner = _child(node, step)
        if inner is None:
            break
        node = inner
    return START if node is None else Mark(line=node.line, column=node.column)


def key_place(root: Node | None, pointer: Pointer) -> Mark:
    """Where the key that `pointer` ends in stands; of a list's member, where the member starts."""
    parent = root
    for step in pointer[:-1]:
        parent = _child(parent, step)
    if isinstance(parent, Mapping) and pointer and str(pointer[-1]) in parent.entries:
        key = parent.entries[str(pointer[-1])][0]
        return Mark(line=key.line, column=key.column)
    return value_place(root, pointer)


def exists(root: Node | None, pointer: Pointer) -> bool:
    """Whether `pointer` leads to something."""
    node = root
    for step in pointer:
        node = _child(node, step)
    return node is not None


def _child(node: Node | None, step: str | int) -> Node | None:
    if isinstance(node, Mapping):
        entry = node.entries.get(str(step))
        return None if entry is None else entry[1]
    if isinstance(node, Sequence) and (isinstance(step, int) or _INDEX.fullmatch(step)) and int(step) < len(node.items):
        return node.items[int(step)]
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """A file that was read, kept so that findings can be placed in it.

    Only its bytes are kept: the tree takes ten times as much memory, and most files have no finding to be placed.
    """

    path: str
    """Relative to the knowledge base's folder."""
    text: str | bytes | None
    """What it holds, or the UTF-8 that it is read from when it is asked for; None where it could not be read."""
    is_yaml: bool = True
    """Whether pointers lead into it; a hand-written page has places only."""

    def value(self, pointer: str) -> Mark:
        """Where the value at a JSON pointer starts."""
        return value_place(self._root(), steps(pointer))

    def key(self, pointer: str) -> Mark:
        """Where the key that the JSON pointer ends in stands."""
        return key_place(self._root(), steps(pointer))

    def piece(self, pointer: str, piece: str) -> Mark:
        """Where a piece of the text at a JSON pointer stands, if that is further down; else where the text starts."""
        start = self.value(pointer)
        text = self._text()
        if text is None or not piece.split():
            return start
        # A text over several lines is folded: its blanks may be line ends in the file.
        words = r"\s+".join(map(re.escape, piece.split()))
        found = re.compile(words).search(text, _starts(text)[start.line - 1] + start.column - 1)
        if found is None:
            return start
        there = _place(text, found.start())
        return there if there.line > start.line else start

    def has(self, pointer: str) -> bool:
        """Whether a JSON pointer leads to something."""
        return exists(self._root(), steps(pointer))

    def index(self, index: int) -> Mark:
        """Where a code point of the text stands, counted from 0."""
        text = self._text()
        return START if text is None else _place(text, index)

    def _root(self) -> Node | None:
        text = self._text() if self.is_yaml else None
        return None if text is None else _tree(self.path, text)

    def _text(self) -> str | None:
        return _decoded(self.text) if isinstance(self.text, bytes) else self.text


@functools.lru_cache(maxsize=8)
def _decoded(data: bytes) -> str:
    return data.decode("utf-8-sig")


@functools.lru_cache(maxsize=8)
def _tree(path: str, text: str) -> Node | None:
    """The tree, made once for the findings of a rule that stand in the same file."""
    return parse(path, text)[0]


def _place(text: str, index: int) -> Mark:
    starts = _starts(text)
    line = bisect_right(starts, index)
    return Mark(line=line, column=index - starts[line - 1] + 1)


@functools.lru_cache(maxsize=8)
def _starts(text: str) -> list[int]:
    """Made once for all findings of a page."""
    return line_starts(text)
