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
    out = _Lines()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(header)
    for row in rows:
        writer.writerow([_cell(each) for each in row])
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
