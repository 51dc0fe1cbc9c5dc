"""A file as a tree that keeps its comments: each with the row that it stands above or beside.

For writing a file anew. Who only reads asks `tree.py`, which refuses what has no place in a knowledge base; here a
text is taken apart that was found good there.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from dataclasses import dataclass, field
from typing import Any

import yaml

from kbtools.reading.comments import Piece, comments_between
from kbtools.reading.source import line_starts
from kbtools.reading.tree import events, without_old_breaks

_ONLY_DASHES = re.compile(r"[ \t-]*")


@dataclass(slots=True, kw_only=True)
class Leaf:
    """A scalar."""

    value: str
    """Its characters, quotes and escapes resolved."""
    plain: bool
    """Written without quotes."""


@dataclass(slots=True, kw_only=True)
class Group:
    """A list or a mapping."""

    mapping: bool
    """Whether its rows have keys."""
    rows: list[Row] = field(default_factory=list)
    """In file order."""
    tail: list[str] = field(default_factory=list)
    """Comment lines behind the last row; an empty one stands for blank lines."""
    flow: bool = False
    """Written between brackets."""
    column: int = 1
    """Where its rows begin, 1-based, if it is written in lines."""


@dataclass(slots=True, kw_only=True)
class Row:
    """A key with its value, or a member of a list; the whole document is one, too."""

    key: str | None
    """None: a member of a list, or the document."""
    value: Leaf | Group = field(default_factory=lambda: Leaf(value="", plain=True))
    """What stands there."""
    before: list[str] = field(default_factory=list)
    """Comment lines above it, each from its `#`; an empty one stands for blank lines."""
    beside: list[str] = field(default_factory=list)
    """Comments behind it, each from its `#`."""
    group: Group | None = None
    """What it is a row of; None: the document."""
    above: Row | None = None
    """The row whose value that group is."""


def annotated(text: str) -> Row:
    """Take a text apart in which `parse` has found nothing wrong."""
    shown, back = without_old_breaks(text)
    builder = _Builder(back)
    for event in events(shown):
        builder.take(event)
    _Comments(text, builder).place()
    return builder.root


def plain_data(value: Any, key: str | None = None, group: Group | None = None) -> Row:
    """Texts, numbers, dates, lists and dictionaries as such a tree, without comments."""
    row = Row(key=key, group=group)
    if isinstance(value, dict):
        row.value = made = Group(mapping=True)
        made.rows = [plain_data(inner, str(name), made) for name, inner in value.items()]
    elif isinstance(value, list | tuple):
        row.value = made = Group(mapping=False)
        made.rows = [plain_data(inner, None, made) for inner in value]
    elif isinstance(value, str):
        row.value = Leaf(value=value, plain=False)
    else:
        row.value = Leaf(value=str(value).lower() if isinstance(value, bool) else str(value), plain=True)
    return row


class _Builder:
    """Rows from events, and where each begins and ends."""

    def __init__(self, back: dict[int, str]) -> None:
        self.root = Row(key=None)
        self.pieces: list[Piece] = []
        self.touched: list[tuple[int, Row]] = []
        """Index of a code point at which something of a row begins or ends."""
        self.begun: list[tuple[int, Row | Group]] = []
        """Index at which a row begins, or the closing bracket of a group stands."""
        self.lines: list[tuple[int, Row]] = []
        """1-based line on which a row begins."""
        self._back = back
        self._open: list[tuple[Group, Row]] = []
        self._key: Row | None = None

    def take(self, event: Any) -> None:
        """Add one event."""
        start: Any = event.start_mark
        end: Any = event.end_mark
        if isinstance(event, yaml.ScalarEvent):
            self._scalar(event)
        elif isinstance(event, yaml.MappingStartEvent | yaml.SequenceStartEvent):
            row = self._row(event)
            mapping = isinstance(event, yaml.MappingStartEvent)
            group = Group(mapping=mapping, flow=bool(event.flow_style), column=start.column + 1)
            row.value = group
            if group.flow:
                self.touched.append((start.index, row))
            self._open.append((group, row))
            self._key = None
        elif isinstance(event, yaml.MappingEndEvent | yaml.SequenceEndEvent):
            group, row = self._open.pop()
            if group.flow:
                self.begun.append((end.index - 1, group))
                self.touched.append((end.index, row))

    def _scalar(self, event: Any) -> None:
        start, end = event.start_mark.index, event.end_mark.index
        self.pieces.append(Piece(start, end, event.style in {"|", ">"}))
        value = event.value.translate(self._back) if self._back else event.value
        if self._open and self._open[-1][0].mapping and self._key is None:
            self._key = self._add(event, value)
            row = self._key
        else:
            row = self._row(event)
            row.value = Leaf(value=value, plain=event.implicit[0])
        self.touched += [(start, row), (end, row)]

    def _row(self, event: Any) -> Row:
        """The row whose value begins: one of a key, or a new member of a list."""
        if self._key is not None:
            row, self._key = self._key, None
            return row
        return self._add(event, None)

    def _add(self, event: Any, key: str | None) -> Row:
        if self._open:
            group, above = self._open[-1]
            row = Row(key=key, group=group, above=above)
            group.rows.append(row)
        else:
            row = self.root
        self.begun.append((event.start_mark.index, row))
        self.touched.append((event.start_mark.index, row))
        self.lines.append((event.start_mark.line + 1, row))
        return row


class _Comments:
    """Gives each comment to a row, or to the end of a group."""

    def __init__(self, text: str, builder: _Builder) -> None:
        self._text, self._builder = text, builder
        self._starts = line_starts(text)
        self._begun = [index for index, _ in builder.begun]
        self._touched = [index for index, _ in builder.touched]

    def place(self) -> None:
        """Blank lines go with what stands below them."""
        commented: set[int] = set()
        for comment in comments_between(self._text, self._builder.pieces):
            index = comment.start - 1
            line = bisect_right(self._starts, index)
            said = f"#{comment.text.rstrip()}"
            before = self._text[self._starts[line - 1] : index]
            if before.strip(" \t-") or not _ONLY_DASHES.fullmatch(before):
                self._owner(index).beside.append(said)
                continue
            commented.add(line)
            where = self._above_what(index, len(before) + 1, dashed="-" in before)
            where += ["", said] if self._is_blank(line - 1) else [said]
        met: set[int] = set()
        for line, row in self._builder.lines:
            # What begins on one line is one row to the eye, and the outermost is that row.
            if line not in met and self._is_blank(line - 1) and (row.group is None or not row.group.flow):
                row.before.append("")
            met.add(line)

    def _owner(self, index: int) -> Row:
        at = bisect_right(self._touched, index) - 1
        return self._builder.touched[at][1] if at >= 0 else self._builder.root

    def _above_what(self, index: int, column: int, *, dashed: bool) -> list[str]:
        """The lines that a comment line joins."""
        at = bisect_left(self._begun, index)
        following = self._builder.begun[at][1] if at < len(self._begun) else None
        if isinstance(following, Group):
            return following.tail
        if following is not None:
            in_flow = following.group is not None and following.group.flow
            if in_flow or dashed or following.group is None or column <= following.group.column:
                return following.before
        ended = self._ended(at, following)
        fitting = [group for group in ended if group.column <= column]
        if fitting:
            return max(fitting, key=lambda group: group.column).tail
        if following is not None:
            return following.before
        root = self._builder.root
        return root.value.tail if isinstance(root.value, Group) else root.before

    def _ended(self, at: int, following: Row | None) -> list[Group]:
        """Groups in lines that end between a row and the one before it."""
        last = next((each for _, each in reversed(self._builder.begun[:at]) if isinstance(each, Row)), None)
        still_open = {id(group) for group in _around(following)}
        return [group for group in _around(last) if id(group) not in still_open and not group.flow]

    def _is_blank(self, line: int) -> bool:
        if not 1 <= line < len(self._starts):
            return False
        return not self._text[self._starts[line - 1] : self._starts[line]].strip()


def _around(row: Row | None) -> list[Group]:
    found = []
    while row is not None:
        if row.group is not None:
            found.append(row.group)
        row = row.above
    return found
