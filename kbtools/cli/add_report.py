"""`kbtools add-report`: reports from outside, as cases."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TextIO

import click

from kbtools.cli.common import day, kb_option
from kbtools.cli.output import context_for, misuse, patience, say
from kbtools.cli.report_table import Asked, take_table
from kbtools.cli.reported import tell, tell_changes
from kbtools.edges import cache
from kbtools.edges.intake import take_in
from kbtools.intake.days import Order
from kbtools.intake.handed_in import reports_of
from kbtools.intake.letters import MOST_BYTES, NoTextError, letters
from kbtools.intake.report import Report
from kbtools.intake.values import Ways
from kbtools.model.base import KnowledgeBase
from kbtools.model.money import DistanceUnit
from kbtools.reading.shape import Shape
from kbtools.text.terminal import shown

_INPUT = "standard input"
_BECAME = {"written": "", "updated": ": brought up to date", "there": ": there already"}
_OF_A_TABLE = ("columns", "separator", "encoding", "rejects")


@click.command("add-report")
@kb_option
@click.argument("names", nargs=-1, metavar="[FILE|-]...")
@click.option("--table", is_flag=True, help="FILE is a table (CSV): a heading, and a report in each row.")
@click.option(
    "--column", "columns", multiple=True, metavar="KEY=HEADING", help="Which column is a key; may stand again."
)
@click.option(
    "--separator", metavar="SIGN", help="Between the table's cells, or `tab`; without it, as the table looks."
)
@click.option("--encoding", metavar="NAME", help="Of the table: cp1252, utf-16; without it, as its bytes look.")
@click.option("--dates", type=click.Choice(["dmy", "mdy", "ymd"]), help="Order of days such as 3/4/2026.")
@click.option("--unit", type=click.Choice(["km", "mi"]), help="Of distances without a unit; without it, the club's.")
@click.option("--rejects", metavar="FILE", help="Where the rows go that are refused; without it, beside the table.")
def add_report(  # noqa: PLR0913, PLR0917 (one for each option)
    folder: Path,
    names: tuple[str, ...],
    table: bool,
    columns: tuple[str, ...],
    separator: str | None,
    encoding: str | None,
    dates: Order | None,
    unit: DistanceUnit | None,
    rejects: str | None,
) -> None:
    """Take in what owners report: each report becomes a case, whole or not at all.

    FILE holds one report or more, each between a line "--- report" and a line "--- end", as the site's page for
    reports writes them; the rest of a mail around it does not matter. Or it is the body of an issue that the form for
    reports has made. Without FILE, or with "-", it is read from standard input.

    With --table it has a report in each row, below a heading of the case format's keys: model, year, odometer, seen,
    fault, state, cause, after and so on. Which column is taken for which key is shown.

    A report that tells of a case that is there already is not written a second time; one that tells how an earlier one
    ended brings that up to date.

    Exit code 0: all are written, or there already. 1: at least one is refused. 2: called wrongly.
    """
    told = {"columns": columns, "separator": separator, "encoding": encoding, "rejects": rejects}
    if not table and any(told[each] for each in _OF_A_TABLE):
        raise misuse("--column, --separator, --encoding and --rejects are about a table: --table says that it is one.")
    given = _given(names)

    def ways(base: KnowledgeBase, shapes: Mapping[str, Shape]) -> Ways:
        clubs = base.club.distance_unit if base.club is not None else None
        return Ways(base=base, shapes=shapes, dates=dates, unit=unit or clubs)

    if table:
        if len(given) != 1:
            raise misuse("One table at a time.")
        asked = Asked(columns=_pairs(columns), separator=separator, encoding=encoding, rejects=rejects)
        raise SystemExit(1 if take_table(folder, *given[0], asked, ways) else 0)
    raise SystemExit(1 if _take(folder, given, ways) else 0)


def _take(
    folder: Path, given: Sequence[tuple[str, bytes]], ways: Callable[[KnowledgeBase, Mapping[str, Shape]], Ways]
) -> bool:
    """File the reports in files; whether one was refused."""

    def handed_in(base: KnowledgeBase, shapes: Mapping[str, Shape]) -> Sequence[Report]:
        how = ways(base, shapes)
        return [report for name, data in given for report in reports_of(name, data, how)]

    with patience("Reading and checking"):
        taken = take_in(folder, handed_in, day(), cache.place())
    for filed in taken.filed:
        if filed.path is not None:
            say(f"{shown(Path(os.path.relpath(folder / filed.path)).as_posix())}{_BECAME[filed.became]}\n")
        for sentence in filed.said:
            say(f"{shown(sentence)}\n", err=True, fit=True)
    lines = {name: _lines(data) for name, data in given}
    tell([finding for filed in taken.filed for finding in filed.findings], context_for(folder, err=True), lines)
    refused = sum(filed.became == "refused" for filed in taken.filed)
    if refused:
        say(f"Refused: {refused} of {len(taken.filed)}. Nothing of what is refused was written.\n", err=True)
    tell_changes(taken.changes)
    return refused > 0


def _given(names: Sequence[str]) -> list[tuple[str, bytes]]:
    """What is handed in, by its name; of each no more than is looked at."""
    found: list[tuple[str, bytes]] = []
    for name in dict.fromkeys(names or ("-",)):
        if name == "-":
            there: TextIO | None = sys.stdin
            if there is None or (not names and there.isatty()):
                raise misuse("Name a file, or - for what comes in from another program.")
            found.append((_INPUT, there.buffer.read(MOST_BYTES + 1)))
            continue
        path = Path(name)
        if not path.is_file():
            raise misuse(f"There is no file {name}.")
        with path.open("rb") as stream:
            found.append((name, stream.read(MOST_BYTES + 1)))
    return found


def _pairs(columns: Sequence[str]) -> dict[str, str]:
    found = {}
    for each in columns:
        key, sign, heading = each.partition("=")
        if not sign:
            raise misuse(f'"{each}" is no KEY=HEADING, such as odometer=KM.')
        found[key.strip()] = heading.strip()
    return found


def _lines(data: bytes) -> Sequence[str]:
    """The lines of what was handed in, to be shown beside a finding; of a mail in several parts none are sure."""
    try:
        found = letters(data)
    except NoTextError:
        return ()
    return found[0].text.split("\n") if len(found) == 1 else ()
