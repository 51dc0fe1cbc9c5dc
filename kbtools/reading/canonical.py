"""The one way in which a file of a knowledge base is written, so that a change shows what changed and nothing else.

Keys stand in the schema's order. A list of rows has a row a line; what is short and has no sentences in it stands on
one line between brackets. A text stands on one line, whatever its length, and in lines only where it has line breaks.
Quotes are double ones, and stand only where a text would not come back without them, or where YAML 1.2 (its core
schema, section 10.3.2) would have another reader take it for a number, a truth value or nothing.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from typing import Final

from kbtools.reading.annotated import Group, Leaf, Row
from kbtools.reading.shape import Hints
from kbtools.text.terminal import is_obeyed, written

WIDTH: Final = 120
"""Columns that a list or a mapping between brackets may reach to."""

_CORE: Final = re.compile(
    r"null|Null|NULL|~"
    r"|true|True|TRUE|false|False|FALSE"
    r"|[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+"
    r"|[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?"
    r"|[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN)",
    re.ASCII,
)
"""What YAML 1.2's core schema does not take for a text."""
_PLAIN: Final = re.compile(r"(?![-?:](?:\s|\Z))[^\s,\[\]{}#&*!|>'\"%@`](?:.*\S)?", re.DOTALL)
_CUT: Final = re.compile(r":(?=\s|\Z)|\s#|\A(?:---|\.\.\.)|\t")
_BRACKETS: Final = re.compile(r"[,\[\]{}?]|\A:")
"""What a plain text between brackets may not hold, or not begin with; the last two to some readers only."""
_NO_LINE: Final = re.compile("[^\t\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
"""What a line cannot hold as it is: by YAML 1.2, and the line breaks of YAML 1.1."""


def canonical(document: Row, hints: Hints | None, *, printed: bool = False) -> str:
    """Write a document.

    Args:
        document: what to write; its comments are kept. It is used up: rows are put in order in it.
        hints: of the schema; None: keys stay in their order.
        printed: it goes to a terminal, where nothing in it may act: such texts stand between quotes, for escapes.
    """
    return "".join(f"{line}\n" for line in _Writer(printed=printed).document(document, hints))


class _Writer:
    def __init__(self, *, printed: bool) -> None:
        self._printed = printed

    def document(self, root: Row, hints: Hints | None) -> Iterator[str]:
        head, gap, rest = _head(root.before)
        yield from (*head, *root.beside)
        if gap and (head or root.beside):
            yield ""
        if isinstance(root.value, Leaf):
            yield from (*rest, self._leaf(root.value, hints))
            return
        if not root.value.rows:
            yield from (*rest, "{}" if root.value.mapping else "[]", *root.value.tail)
            return
        root.value.rows[0].before[:0] = rest
        above, lines = self._block(root.value, hints, "")
        yield from above[not (head or root.beside) and above[:1] == [""] :]
        yield from lines

    def _block(self, group: Group, hints: Hints | None, pad: str) -> tuple[list[str], list[str]]:
        """The comment lines above the first row, not indented yet, and the lines of all rows."""
        above: list[str] = []
        lines: list[str] = []
        for number, (row, inner) in enumerate(_ordered(group, hints)):
            before, own = self._row(row, inner, pad)
            if number == 0:
                above = before
            else:
                lines += _indented(before, pad)
            lines += own
        return above, [*lines, *_indented(group.tail, pad)]

    def _row(self, row: Row, hints: Hints | None, pad: str) -> tuple[list[str], list[str]]:
        """The comment lines above a row, not indented yet, and its own lines."""
        head = f"{pad}-" if row.key is None else f"{pad}{self._key(row.key)}:"
        _hoist(row, hints)
        before, beside = list(row.before), list(row.beside)
        inline = self._inline(row.value, hints, WIDTH - len(head) - 1)
        if inline is not None:
            lines = [f"{head} {inline}" if inline else head]
        elif isinstance(row.value, Leaf):
            lines = list(_literal(row.value.value, head, pad))
        else:
            above, lines = self._block(row.value, hints, f"{pad}  ")
            # Above the first row of an inner group no blank line is kept.
            above = above[above[:1] == [""] :]
            if row.key is None:
                lines[0] = f"{pad}- {lines[0][len(pad) + 2 :]}"
                before, beside = [*before, *beside], []
            else:
                lines = [head, *_indented(above, f"{pad}  "), *lines]
        if len(beside) > 1:
            before, beside = [*before, *beside], []
        if beside:
            lines[0] = f"{lines[0]}  {beside[0]}"
        return before, lines

    def _inline(self, value: Leaf | Group, hints: Hints | None, room: int, *, inside: bool = False) -> str | None:
        """The value on one line; None where it does not stand on one."""
        if isinstance(value, Leaf):
            return self._inline_leaf(value, hints, inside=inside)
        if not value.rows and not value.tail:
            return "{}" if value.mapping else "[]"
        pieces = [] if _has_comments(value) else list(self._pieces(value, hints, room))
        line = ", ".join(pieces)
        if len(pieces) < len(value.rows) or len(line) + 2 > room:
            return None
        return f"{{{line}}}" if value.mapping else f"[{line}]"

    def _pieces(self, group: Group, hints: Hints | None, room: int) -> Iterator[str]:
        """The rows as they stand between brackets, up to the first that does not."""
        for row, inner in _ordered(group, hints):
            is_row = not group.mapping and isinstance(row.value, Group)
            if is_row or (inner is not None and inner.sentences):
                return
            piece = self._inline(row.value, inner, room, inside=True)
            if piece is None:
                return
            yield piece if row.key is None else f"{self._key(row.key, inside=True)}: {piece}"

    def _inline_leaf(self, leaf: Leaf, hints: Hints | None, *, inside: bool) -> str | None:
        if _is_literal(leaf.value) and not self._is_acted_on(leaf.value):
            return None
        text = self._leaf(leaf, hints)
        # What needs quotes only because of the brackets stands better without both.
        if inside and (not text or (text[0] != '"' and _BRACKETS.search(text))):
            return None
        return text

    def _key(self, key: str, *, inside: bool = False) -> str:
        plain = _is_plain(key) and not (inside and _BRACKETS.search(key))
        return key if plain and not self._is_acted_on(key) else _quoted(key)

    def _leaf(self, leaf: Leaf, hints: Hints | None) -> str:
        text = leaf.value
        if text == "":
            return "" if leaf.plain else '""'
        if not _is_plain(text) or self._is_acted_on(text):
            return _quoted(text)
        if hints is None:
            return text if leaf.plain or _CORE.fullmatch(text) is None else _quoted(text)
        if hints.as_text:
            return text
        if hints.types & {"number", "integer", "boolean"}:
            # Here quotes make a text of it.
            return text if leaf.plain else _quoted(text)
        return text if _CORE.fullmatch(text) is None else _quoted(text)

    def _is_acted_on(self, text: str) -> bool:
        return self._printed and is_obeyed(text)


def _literal(text: str, head: str, pad: str) -> Iterator[str]:
    yield f"{head} |" if text.endswith("\n") else f"{head} |-"
    for line in text.removesuffix("\n").split("\n"):
        yield f"{pad}  {line}" if line else ""


def _indented(lines: Iterable[str], pad: str) -> list[str]:
    return [f"{pad}{line}" if line else "" for line in lines]


def _head(before: list[str]) -> tuple[list[str], bool, list[str]]:
    """What stands at the top of the file whatever its first key is, whether a blank line follows, what is the key's."""
    lines = before[1:] if before[:1] == [""] else before
    if "" not in lines:
        return lines, False, []
    last = len(lines) - 1 - lines[::-1].index("")
    return lines[:last], True, lines[last + 1 :]


def _hoist(row: Row, hints: Hints | None) -> None:
    """The first row of a member of a list stands beside its dash: what is said above the one goes above the other."""
    if row.key is None and isinstance(row.value, Group) and row.value.rows:
        first, inner = _ordered(row.value, hints)[0]
        _hoist(first, inner)
        row.before += [line for line in first.before if line]
        first.before.clear()


def _ordered(group: Group, hints: Hints | None) -> list[tuple[Row, Hints | None]]:
    if hints is None:
        return [(row, None) for row in group.rows]
    if not group.mapping:
        return [(row, hints.items) for row in group.rows]
    places = {key: place for place, key in enumerate(hints.properties)}
    rows = sorted(group.rows, key=lambda row: places.get(row.key or "", len(places)))
    return [(row, hints.properties.get(row.key or "", hints.others)) for row in rows]


def _has_comments(group: Group) -> bool:
    return any(group.tail) or any(
        any(row.before) or row.beside or (isinstance(row.value, Group) and _has_comments(row.value))
        for row in group.rows
    )


def _is_plain(text: str) -> bool:
    return _PLAIN.fullmatch(text) is not None and _CUT.search(text) is None and _NO_LINE.search(text) is None


def _is_literal(text: str) -> bool:
    """Whether a text stands in lines as it is: it has line breaks, and nothing but the last one would be lost."""
    if "\n" not in text.removesuffix("\n") or text.endswith("\n\n"):
        return False
    lines = text.removesuffix("\n").split("\n")
    return lines[0][:1] not in {"", " ", "\t"} and not any(map(_is_no_literal_line, lines))


def _is_no_literal_line(line: str) -> bool:
    return _NO_LINE.search(line) is not None or line != line.rstrip()


def _quoted(text: str) -> str:
    """Between double quotes: JSON's, with escapes for what YAML would not give back."""
    return _NO_LINE.sub(lambda match: _escape(match[0]), json.dumps(text, ensure_ascii=False))


def _escape(character: str) -> str:
    shown = written(character)
    return f"\\u{ord(character):04x}" if shown == character else shown


def comments_of(row: Row) -> Iterable[str]:
    """The comments of a row and all below it, in no particular order, each from its `#`."""
    yield from (line for line in (*row.before, *row.beside) if line)
    if isinstance(row.value, Group):
        yield from (line for line in row.value.tail if line)
        for inner in row.value.rows:
            yield from comments_of(inner)
