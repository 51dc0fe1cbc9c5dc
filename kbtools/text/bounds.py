"""What the Markdown library cannot take: a bound before each pattern for which its time grows faster than the text.

Measured with random pieces of Markdown, repeated: brackets look to the end of their paragraph; ampersands and other
marks copy it each time; headings, rules, definitions and boxes copy their block; a table fills its short rows up; a
fence looks to the end of the page for its like. All else grows with the length of the text alone. The numbers are far
above what people write.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from typing import Final, NamedTuple

LONGEST_PARAGRAPH: Final = 4_000
"""Characters without an empty line, some seven hundred words; of a list or a table, of one item or row."""
MOST_LINES: Final = 100
"""Of a paragraph, likewise."""
MOST_BRACKETS: Final = 60
"""Opening square brackets in a paragraph, likewise."""
DEEPEST: Final = 12
"""Quotes and lists inside each other."""
MOST_BREAKS: Final = 500
"""Headings, rules, definitions and boxes of a page."""
MOST_PARAGRAPHS: Final = 5_000
"""Of a page, each item of a list for one."""
MOST_CELLS: Final = 10_000
"""Of all tables of a page: lines by columns."""
MOST_FENCES: Final = 200
"""Lines that begin or end a block of code on a page."""


class Excess(NamedTuple):
    """What is too much, and where it begins."""

    at: int
    """Code point of the text, from 0."""
    message: str
    """What is wrong, one sentence."""
    hint: str
    """What to do about it, one sentence."""


_LINE = re.compile(r"[^\r\n]*(?:\r\n|\r|\n|\Z)")
_ITEM = re.compile(r"(?P<before>[ \t>]*)(?P<kind>[-+*]|[0-9]{1,9}\.)[ \t]+")
_MARKS = re.compile(r"[ \t>]*(?:(?:[-+*]|[0-9]{1,9}[.)])[ \t][ \t>]*)*")
_NEARLY_DEEP = re.compile(r"^[ \t]{10,}|^(?:[ \t]*(?:>|[-+*][ \t]|[0-9]{1,9}[.)][ \t])){4}", re.MULTILINE)
_OPENS = frozenset({*" \t>-+*0123456789"})
"""What the pattern above begins with: a text of one line that begins otherwise is not searched through."""
_OPENERS = re.compile(r">|[-+*](?=[ \t])|[0-9]{1,9}[.)](?=[ \t])")
_BREAK = re.compile(r"#|:[ \t]|!!!|\?\?\?")
_RULES = ({"-"}, {"*"}, {"_"}, {"="})
_FENCE = re.compile(r"(?P<fence>`{3,}+|~{3,}+)[ ]*(?P<name>[\w#.+-]*)[ ]*")
_COLUMNS = re.compile(r"[|: -]*")
_SPLIT = "Put empty lines between its thoughts, or make a list of it."
_FEWER = "Make several pages of it."


def excess(text: str) -> Excess | None:
    """What is too much in a text of an entry; None where it can be rendered at once."""
    if _is_small(text):
        return None
    return _Scan(text).first()


def page_excess(text: str) -> Excess | None:
    """What is too much on a hand-written page, which knows tables, headings and fences; None where nothing is."""
    return _PageScan(text).first()


def _is_small(text: str) -> bool:
    """Whether no bound can be met: most texts are short, and no scan is needed to tell."""
    if len(text) > LONGEST_PARAGRAPH or text.count("[") > MOST_BRACKETS or text.count("\n") >= MOST_LINES:
        return False
    if "\n" not in text and text[:1] not in _OPENS:
        return "\r" not in text
    return "\r" not in text and _NEARLY_DEEP.search(text) is None


class _Scan:
    """Goes through the lines once, and stops at the first that is too much."""

    def __init__(self, text: str) -> None:
        self._lines = [(match.start(), match[0].rstrip("\r\n")) for match in _LINE.finditer(text) if match[0]]
        self._item: tuple[str, str] | None = None
        """What stands before the items of the list that the block is, and their mark."""
        self._start = 0
        self._length = self._count = self._brackets = 0

    def first(self) -> Excess | None:
        """The first that is too much."""
        return next(self._all(), None)

    def _all(self) -> Iterator[Excess]:
        fresh = True
        for number, (index, line) in enumerate(self._lines):
            if self._is_code(number) or line.strip(" \t") == "":
                fresh = True
            else:
                yield from self._line(number, index, line, fresh=fresh)
                fresh = False

    def _is_code(self, _number: int) -> bool:
        return False

    def _line(self, number: int, index: int, line: str, *, fresh: bool) -> Iterator[Excess]:
        item = _ITEM.match(line)
        mark = None if item is None else (item["before"], item["kind"][-1])
        if fresh:
            self._item = mark
        if fresh or (mark is not None and mark == self._item) or self._is_row(number):
            self._start, self._length, self._count, self._brackets = index, 0, 0, 0
        self._length += len(line) + 1
        self._count += 1
        self._brackets += line.count("[")
        if self._length > LONGEST_PARAGRAPH:
            yield Excess(self._start, f"This paragraph has more than {LONGEST_PARAGRAPH:,} characters.", _SPLIT)
        if self._count > MOST_LINES:
            yield Excess(self._start, f"This paragraph has more than {MOST_LINES} lines.", _SPLIT)
        if self._brackets > MOST_BRACKETS:
            yield Excess(self._start, f"This paragraph has more than {MOST_BRACKETS} opening brackets.", _SPLIT)
        if _depth(line) > DEEPEST:
            message = f"More than {DEEPEST} quotes and lists stand inside each other here."
            yield Excess(index, message, "Take some of the marks at the start of the line out.")

    def _is_row(self, _number: int) -> bool:
        return False


def _depth(line: str) -> int:
    """Quotes and lists that a line opens; what it is moved in by stands for those around it."""
    if _is_rule(line):
        return 0
    marks = _MARKS.match(line)
    opened = "" if marks is None else marks[0]
    moved = len(opened) - len(opened.lstrip(" ")) + 4 * opened.count("\t") if opened.strip() else 0
    return len(_OPENERS.findall(opened)) + moved // 4


def _is_rule(line: str) -> bool:
    """Whether a line is nothing but signs of one kind: a rule, or the underline of a heading."""
    signs = line.strip(" \t>").replace(" ", "")
    return len(signs) > 0 and set(signs) in _RULES


class _PageScan(_Scan):
    """A page has more: code between fences, tables, headings, rules, definitions and boxes."""

    def __init__(self, text: str) -> None:
        super().__init__(text)
        self._fences = [number for number, (_, line) in enumerate(self._lines) if line.startswith(("```", "~~~"))]
        self._code = self._fenced() if len(self._fences) <= MOST_FENCES else frozenset()
        self._table_until = -1
        self._breaks = self._paragraphs = self._cells = 0

    def _all(self) -> Iterator[Excess]:
        if len(self._fences) > MOST_FENCES:
            index, _ = self._lines[self._fences[MOST_FENCES]]
            yield Excess(index, f"The page has more than {MOST_FENCES} lines that begin or end code.", _FEWER)
        yield from super()._all()

    def _fenced(self) -> frozenset[int]:
        """The lines of code between fences. None, where one is written in a way that would have to be told apart."""
        found = {number: _FENCE.fullmatch(self._lines[number][1]) for number in self._fences}
        ends: dict[str, list[int]] = {}
        for number, fence in found.items():
            if fence is None:
                return frozenset()
            if not fence["name"]:
                ends.setdefault(fence["fence"], []).append(number)
        code: set[int] = set()
        done = -1
        for number, fence in found.items():
            same = ends.get(fence["fence"], []) if fence is not None else []
            after = bisect_right(same, number)
            if number > done and after < len(same):
                done = same[after]
                code.update(range(number, done + 1))
        return frozenset(code)

    def _is_code(self, number: int) -> bool:
        return number in self._code

    def _line(self, number: int, index: int, line: str, *, fresh: bool) -> Iterator[Excess]:
        if fresh:
            self._table_until = self._end_of_table(number)
        yield from super()._line(number, index, line, fresh=fresh)
        inner = line[(marks.end() if (marks := _MARKS.match(line)) else 0) :]
        self._breaks += _BREAK.match(inner) is not None or _is_rule(line)
        self._paragraphs += self._count == 1
        if fresh:
            self._cells += self._cells_from(number)
        for count, most, what in (
            (self._breaks, MOST_BREAKS, "headings, rules, definitions and boxes"),
            (self._paragraphs, MOST_PARAGRAPHS, "paragraphs"),
            (self._cells, MOST_CELLS, "cells of tables"),
        ):
            if count > most:
                yield Excess(index, f"The page has more than {most:,} {what}.", _FEWER)

    def _is_row(self, number: int) -> bool:
        return number <= self._table_until

    def _block(self, number: int) -> Iterator[str]:
        """The lines of the block that begins with a line."""
        while number < len(self._lines) and (line := self._lines[number][1]).strip(" \t") != "":
            yield line
            number += 1

    def _end_of_table(self, number: int) -> int:
        """The last line of the table that begins with a line, if it surely is one for the library; else -1."""
        head = self._lines[number][1].strip(" ")
        below = self._lines[number + 1][1].strip(" ") if number + 1 < len(self._lines) else ""
        plain = "|" in head and not {"`", "\\"} & set(head) and _COLUMNS.fullmatch(below)
        if not plain or len(_cells(head)) < 2 or len(_cells(head)) != len(_cells(below)):
            return -1
        return number + sum(1 for _ in self._block(number)) - 1

    def _cells_from(self, number: int) -> int:
        """Cells that the block which begins with a line would have as a table."""
        rows = widest = 0
        for line in self._block(number):
            rows, widest = rows + 1, max(widest, line.count("|"))
        return rows * (widest + 1) if widest and rows > 1 else 0


def _cells(row: str) -> list[str]:
    return row.removeprefix("|").removesuffix("|").split("|")
