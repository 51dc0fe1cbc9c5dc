"""A table of reports: its columns shown, its rows filed, those that are refused in a table of their own."""

from __future__ import annotations

import os
import sys
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

import click

from kbtools.cli.common import day
from kbtools.cli.output import misuse, say
from kbtools.cli.reported import tell_changes
from kbtools.edges import cache
from kbtools.edges.intake import Became, Filed, take_in
from kbtools.edges.shipped import shapes
from kbtools.edges.writing import put_new
from kbtools.intake.columns import Column, ColumnsError
from kbtools.intake.table import Record, Table, TableError, columns_of, refused_rows, reports_of_table, table_of
from kbtools.intake.values import Ways
from kbtools.model.base import KnowledgeBase
from kbtools.reading.shape import Shape
from kbtools.text.terminal import shown

if TYPE_CHECKING:
    from click._termui_impl import ProgressBar

_SHOWN = 10
"""So many refused rows are shown; the file has all."""
_WORDS: Mapping[Became, str] = {
    "written": "written",
    "updated": "brought up to date",
    "there": "there already",
    "refused": "refused",
}
_TABS = {"tab": "\t", "\\t": "\t", "semicolon": ";", "comma": ","}


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What somebody says about a table."""

    columns: Mapping[str, str] = field(default_factory=dict)
    """Key → heading; an empty heading: the key is not read."""
    separator: str | None = None
    """Between its cells."""
    encoding: str | None = None
    """How it is written."""
    rejects: str | None = None
    """Where the refused rows go."""


def take_table(
    folder: Path,
    name: str,
    data: bytes,
    asked: Asked,
    ways: Callable[[KnowledgeBase, Mapping[str, Shape]], Ways],
) -> bool:
    """File the rows of a table; whether one was refused.

    Raises:
        click.UsageError: there is no table, or its columns cannot be told; nothing was written.
    """
    rejects = _free(name, asked.rejects)
    try:
        table = table_of(data, asked.encoding, _sign(asked.separator))
    except TableError as error:
        raise misuse(f"{name}: {error}.") from error
    try:
        read = columns_of(table, shapes()["case"], asked.columns)
    except ColumnsError as error:
        raise misuse(f"{name}: {error}") from error
    _tell_columns(table, read)
    with _bar(len(table.records)) as bar:
        taken = take_in(
            folder,
            lambda base, now: reports_of_table(name, table, read, ways(base, now)),
            day(),
            cache.place(),
            lambda: bar.update(1),
        )
    bad = [(record, each) for record, each in zip(table.records, taken.filed, strict=True) if each.became == "refused"]
    _tell_rows(taken.filed, bad)
    if bad:
        rows = [(record, _why(each)) for record, each in bad]
        put_new(rejects.parent, rejects.name, refused_rows(table, rows).encode("utf-8-sig"))
        say(f"The rows that were refused are in {shown(str(rejects))}, each with the reason.\n", err=True)
    tell_changes(taken.changes)
    return bool(bad)


def _bar(rows: int) -> ProgressBar[int]:
    """Two steps a row, on a terminal and nowhere else."""
    to: TextIO | None = sys.stderr
    return click.progressbar(length=2 * rows, label=f"{rows} rows", file=to, hidden=to is None or not to.isatty())


def _sign(separator: str | None) -> str | None:
    sign = _TABS.get(separator or "", separator)
    if sign is not None and (len(sign) != 1 or sign in '"\r\n'):
        raise misuse(f'"{separator}" is no separator: one sign, or tab.')
    return sign


def _free(name: str, named: str | None) -> Path:
    """Where the refused rows go: where somebody says, unless a file is there, else a name that is free."""
    if named is not None:
        if os.path.lexists(named):
            raise misuse(f"{named} is there already, and stays as it is. --rejects names another file.")
        return Path(named)
    table = Path(name if name != "standard input" else "table.csv")
    number = 1
    while os.path.lexists(place := table.with_name(f"{table.stem}-refused{f'-{number}' if number > 1 else ''}.csv")):
        number += 1
    return place


def _tell_columns(table: Table, read: Sequence[Column]) -> None:
    taken = {each.place for each in read}
    for each in read:
        unit = f", in {each.unit}" if each.unit is not None and each.field.kind == "distance" else ""
        say(f'"{shown(each.heading)}" is taken for {each.field.name}{unit}.\n', err=True)
    left = [f'"{shown(heading)}"' for place, heading in enumerate(table.header) if place not in taken and heading]
    if left:
        say(f"Not read: {', '.join(left)}. --column KEY=HEADING says otherwise.\n", err=True, fit=True)


def _tell_rows(filed: Sequence[Filed], bad: Sequence[tuple[Record, Filed]]) -> None:
    for _, each in bad[:_SHOWN]:
        say(f"{shown(_why(each))}\n", err=True, fit=True)
    if len(bad) > _SHOWN:
        say(f"And {len(bad) - _SHOWN} more.\n", err=True)
    for sentence, times in Counter(said for each in filed for said in each.said).items():
        say(f"{shown(sentence)}{f' ({times} rows)' if times > 1 else ''}\n", err=True, fit=True)
    count = Counter(each.became for each in filed)
    told = ", ".join(f"{count[became]} {words}" for became, words in _WORDS.items() if count[became])
    say(f"{len(filed)} {'row' if len(filed) == 1 else 'rows'}: {told or 'nothing'}.\n")


def _why(filed: Filed) -> str:
    """Everything that is wrong with a row, in one cell."""
    told = (each for each in filed.findings if _counts(each.rule, filed))
    return " ".join(f"{each.rule} {each.message} {each.hint}".strip() for each in told)


def _counts(rule: str, filed: Filed) -> bool:
    """Whether a finding is one that refuses the row; a warning beside an error is left out."""
    errors = {each.rule for each in filed.findings if each.severity == "error"}
    return not errors or rule in errors
