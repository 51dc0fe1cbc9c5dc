"""Rows as CSV (RFC 4180), with a header; texts that a spreadsheet would run are made harmless."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Sequence

from kbtools.text.html import plain

Cell = str | float | int | bool | None
"""A text, which is hostile; a number; nothing."""

_RUN = ("=", "+", "-", "@", "\t", "\r")
"""What makes a spreadsheet take a text for a formula. Common practice, no source."""


class _Lines(list[str]):
    """Takes what the writer gives it."""

    write = list.append


def csv_text(header: Sequence[str], rows: Iterable[Sequence[Cell]]) -> str:
    """A table with a header, in UTF-8 without a mark in front. Numbers have a point, true and false are `yes`, `no`."""
    return csv_table(header, [csv_rows(rows)])


def csv_table(header: Sequence[str], rows: Iterable[str]) -> str:
    """A table of rows that are text already.

    It is one file whatever its size: nothing in a table says that it goes on in another one, and who opens a part of
    it sees no mistake.
    """
    return "".join([_lines([header]), *rows])


def csv_rows(rows: Iterable[Sequence[Cell]]) -> str:
    """Rows without a header."""
    return _lines([_cell(each) for each in row] for row in rows)


def _lines(rows: Iterable[Sequence[str]]) -> str:
    out = _Lines()
    csv.writer(out, lineterminator="\r\n").writerows(rows)
    return "".join(out)


def rows_in(text: str) -> int:
    """How many rows a table has below its header: no cell holds a line break."""
    return text.count("\r\n") - 1


def joined(texts: Iterable[str]) -> str:
    """Several texts in one cell."""
    return "; ".join(texts)


def _cell(value: Cell) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return repr(value)
    text = plain(value)
    # A spreadsheet shows the apostrophe of none of these, and runs nothing.
    return f"'{text}" if text.startswith(_RUN) else text
