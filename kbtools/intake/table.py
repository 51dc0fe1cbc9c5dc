"""A table of reports: rows with a heading, as spreadsheets save them."""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from kbtools.intake.columns import WHY, Column, columns
from kbtools.intake.fields import fields_of
from kbtools.intake.flat import Answer, report_of_answers
from kbtools.intake.letters import NoTextError, text_of
from kbtools.intake.report import Report, refused
from kbtools.intake.values import Ways
from kbtools.reading.shape import Shape
from kbtools.text.short import short

MOST_ROWS: Final = 5_000
"""Of a table: whoever has more splits it."""
_SEPARATORS: Final = (";", ",", "\t", "|")
_LOOKED_AT: Final = 20
"""Rows by which the separator is told."""


class _Lines(list[str]):
    """Takes what the writer gives it."""

    write = list.append


class TableError(ValueError):
    """There is no table to be read; the words say why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """A row."""

    number: int
    """As a spreadsheet numbers it: the heading is 1."""
    line: int
    """Of the file, 1-based, on which it ends."""
    cells: tuple[str, ...]
    """As they were written. Hostile."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table, read."""

    header: tuple[str, ...]
    """Headings."""
    records: tuple[Record, ...]
    """Rows that say something."""
    separator: str
    """Between cells."""


def table_of(data: bytes, encoding: str | None = None, separator: str | None = None) -> Table:
    """Read a table.

    Args:
        data: the file.
        encoding: as somebody says; None: by its mark, else UTF-8, else Windows' western one.
        separator: as somebody says; None: the one that cuts most rows into as many cells as the heading.

    Raises:
        TableError: there is none.
    """
    try:
        text = text_of(data, encoding)
    except NoTextError as error:
        raise TableError(f"{error}. --encoding says how it is written, such as cp1252") from None
    first = text.split("\n", 1)[0].strip().casefold()
    if first.startswith("sep=") and len(first) == 5:
        separator, text = separator or first[-1], text.split("\n", 1)[-1]
        skipped = 1
    else:
        skipped = 0
    cut = separator or _separator(text)
    rows = [replace(each, line=each.line + skipped) for each in _records(text, cut)]
    if not rows:
        raise TableError("There is nothing in it")
    if len(rows) - 1 > MOST_ROWS:
        raise TableError(f"It has more than {MOST_ROWS:,} rows; split it")
    return Table(header=tuple(cell.strip() for cell in rows[0].cells), records=tuple(rows[1:]), separator=cut)


def _records(text: str, separator: str, most: int = MOST_ROWS + 2) -> list[Record]:
    reader = csv.reader((f"{line}\n" for line in text.split("\n")), delimiter=separator)
    found: list[Record] = []
    try:
        for number, cells in enumerate(reader, 1):
            if any(cell.strip() for cell in cells):
                found.append(Record(number=number, line=reader.line_num, cells=tuple(cells)))
            if len(found) >= most:
                break
    except csv.Error as error:
        raise TableError(f"It cannot be read near line {reader.line_num}: {error}") from None
    return found


def _separator(text: str) -> str:
    def fits(separator: str) -> tuple[int, int]:
        try:
            rows = _records(text, separator, _LOOKED_AT)
        except TableError:
            return (0, 0)
        width = len(rows[0].cells) if rows else 0
        return (sum(1 < len(row.cells) <= width for row in rows), width)

    return max(_SEPARATORS, key=fits)


def reports_of_table(name: str, table: Table, read: Sequence[Column], ways: Ways) -> list[Report]:
    """The reports in a table, one a row.

    Args:
        name: of the file, for findings.
        table: the rows.
        read: its columns.
        ways: how values are written.
    """
    return [_report(name, record, table, read, ways) for record in table.records]


def columns_of(table: Table, shape: Shape, said: Mapping[str, str]) -> tuple[Column, ...]:
    """The columns of a table that are read; `shape` is the schema of cases. Raises as `columns` does."""
    return columns(table.header, fields_of(shape.schema), said)


def _report(name: str, record: Record, table: Table, read: Sequence[Column], ways: Ways) -> Report:
    row = f"row {record.number}"
    extra = [cell for cell in record.cells[len(table.header) :] if cell.strip()]
    if extra:
        hint = "Put a cell that has the separator in it between quotes."
        message = f'{row}: It has more cells than the heading ("{short(extra[0])}").'
        return refused(name, message, hint, record.line)
    answers = [
        Answer(field=each.field, text=record.cells[each.place], where=f'{row}, "{short(each.heading)}"', unit=each.unit)
        for each in read
        if each.place < len(record.cells) and record.cells[each.place].strip()
    ]
    return report_of_answers(name, answers, ways, record.line, row)


def refused_rows(table: Table, rows: Sequence[tuple[Record, str]]) -> str:
    """The rows that were refused as a table of their own, each with the reason in a last column.

    Args:
        table: from which they are.
        rows: with the reasons.
    """
    header = [each for each in table.header if each != WHY]
    places = [place for place, each in enumerate(table.header) if each != WHY]
    out = _Lines()
    writer = csv.writer(out, delimiter=table.separator, lineterminator="\r\n")
    writer.writerow([*header, WHY])
    for record, why in rows:
        cells = [record.cells[place] if place < len(record.cells) else "" for place in places]
        writer.writerow([*cells, why])
    return "".join(out)
