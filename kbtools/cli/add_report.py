"""`kbtools add-report`: reports from outside, as cases."""

from __future__ import annotations

import functools
import os
import sys
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TextIO

import click

from kbtools.cli.common import day, kb_option
from kbtools.cli.output import context_for, misuse, patience, say
from kbtools.edges import cache
from kbtools.edges.intake import TakenIn, take_in
from kbtools.intake.handed_in import reports_of
from kbtools.intake.letters import MOST_BYTES, NoTextError, letters
from kbtools.intake.report import Report
from kbtools.intake.values import Ways
from kbtools.model.base import KnowledgeBase
from kbtools.reading.shape import Shape
from kbtools.report import text as findings_text
from kbtools.text.terminal import shown

_INPUT = "standard input"
_BECAME = {"written": "", "updated": ": brought up to date", "there": ": there already"}


@click.command("add-report")
@kb_option
@click.argument("names", nargs=-1, metavar="[FILE|-]...")
def add_report(folder: Path, names: tuple[str, ...]) -> None:
    """Take in what owners report: each report becomes a case, whole or not at all.

    FILE holds one report or more, each between a line "--- report" and a line "--- end", as the site's page for
    reports writes them; the rest of a mail around it does not matter. Or it is the body of an issue that the form for
    reports has made. Without FILE, or with "-", it is read from standard input.

    A report that tells of a case that is there already is not written a second time; one that tells how an earlier one
    ended brings that up to date.

    Exit code 0: all are written, or there already. 1: at least one is refused. 2: called wrongly.
    """
    given = _given(names)

    def handed_in(base: KnowledgeBase, shapes: Mapping[str, Shape]) -> Sequence[Report]:
        ways = Ways(base=base, shapes=shapes, unit=base.club.distance_unit if base.club is not None else None)
        return [report for name, data in given for report in reports_of(name, data, ways)]

    with patience("Reading and checking"):
        taken = take_in(folder, handed_in, day(), cache.place())
    _tell(taken, dict(given), folder)
    raise SystemExit(1 if any(each.became == "refused" for each in taken.filed) else 0)


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


def _tell(taken: TakenIn, given: dict[str, bytes], folder: Path) -> None:
    """Where each went, what is wrong with it, and what all change in the advice."""
    for filed in taken.filed:
        if filed.path is not None:
            say(f"{shown(Path(os.path.relpath(folder / filed.path)).as_posix())}{_BECAME[filed.became]}\n")
        for sentence in filed.said:
            say(f"{shown(sentence)}\n", err=True, fit=True)
    findings = [finding for filed in taken.filed for finding in filed.findings]
    if findings:
        context = context_for(folder, err=True)
        lines = {name: _lines(data) for name, data in given.items()}
        context = replace(context, lines=functools.partial(_of, lines))
        say(findings_text.render(findings, context), err=True, colour=context.colour, fit=True)
    refused = sum(filed.became == "refused" for filed in taken.filed)
    if refused:
        say(f"Refused: {refused} of {len(taken.filed)}. Nothing of what is refused was written.\n", err=True)
    if taken.changes is not None:
        # It loads scipy, and who is refused does without it.
        from kbtools.report import changes as words  # noqa: PLC0415

        say(words.render(taken.changes, taken.changes.currency), fit=True)


def _of(lines: Mapping[str, Sequence[str]], name: str) -> Sequence[str]:
    return lines.get(name, ())


def _lines(data: bytes) -> Sequence[str]:
    """The lines of what was handed in, to be shown beside a finding; of a mail in several parts none are sure."""
    try:
        found = letters(data)
    except NoTextError:
        return ()
    return found[0].text.split("\n") if len(found) == 1 else ()
