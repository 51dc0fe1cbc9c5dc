"""Which rows of two entries are one, and what both say of it."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Hashable, Iterable
from typing import Any, TypeVar

from kbtools.model.check import Check
from kbtools.model.codes import CodeReading
from kbtools.model.fault import Cause, CodeRow, DistinctFrom, Part, Source

Row = Cause | Check | CodeRow | DistinctFrom | Part | Source
"""A row of a list, but for rows of machines, of which several may become one."""

RowT = TypeVar("RowT", bound=Row)
T = TypeVar("T")


def known_by(row: Row) -> Hashable:
    """What two rows have in common that are one; causes and checks bear the draft's ids already."""
    match row:
        case CodeRow():
            return CodeRow, code_of(row.read), row.unit, frozenset(map(code_of, row.with_codes))
        case DistinctFrom():
            return DistinctFrom, row.fault
        case Part():
            return Part, row.name.casefold()
        case Source():
            # Where nothing else tells two meetings of one name apart, the year does.
            year = row.year if row.url is None and row.number is None else None
            return Source, row.kind, row.title.casefold(), row.number, row.url, year
    return type(row), row.id


def code_of(read: CodeReading) -> Hashable:
    """The codes that a text may be, however it is written; the text where it is none."""
    return read.matches or read.text


def rows_of_both(own: Iterable[RowT], theirs: Iterable[RowT], join: Callable[[RowT, RowT], RowT]) -> tuple[RowT, ...]:
    """The first one's rows, then those that only the second one has.

    Args:
        own: rows of the first one.
        theirs: rows of the second one.
        join: makes one row of two that are one, the first one's given first.
    """
    kept: dict[Hashable, RowT] = {}
    for row in (*own, *theirs):
        key = known_by(row)
        kept[key] = join(kept[key], row) if key in kept else row
    return tuple(kept.values())


def filled(own: T, theirs: T) -> T:
    """The first value, with what the second one says where it says nothing; a list that is empty says so."""
    row: Any = own
    still_open = [each.name for each in dataclasses.fields(row) if getattr(own, each.name) is None]
    made: T = dataclasses.replace(row, **{name: getattr(theirs, name) for name in still_open})
    return made
