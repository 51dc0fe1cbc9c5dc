"""What several commands share."""

from __future__ import annotations

import datetime as dt
import os
from dataclasses import replace
from pathlib import Path
from typing import Any

import click

from kbtools.cli.output import context_for, misuse, patience, say
from kbtools.edges import cache, clock
from kbtools.edges.checking import Checked, check
from kbtools.report import text


def _day_first(_context: click.Context, _option: click.Parameter, folder: Path) -> Path:
    """The folder as it is. Beside it the day that the user set is looked at: libraries stumble over it on loading."""
    day()
    return folder


class _BaseFolder(click.Path):
    """The folder of a knowledge base. Who has none yet is told how to begin one."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """Take the folder if it is one."""
        try:
            return super().convert(value, param, ctx)
        except click.BadParameter as error:
            if os.path.lexists(value):
                raise
            hint = "`kbtools new club FOLDER --name NAME` begins a knowledge base; --kb names another one."
            raise click.BadParameter(f"{error.message} {hint}", ctx=ctx, param=param) from error


kb_option = click.option(
    "--kb",
    "folder",
    type=_BaseFolder(exists=True, file_okay=False, path_type=Path),
    default=Path("kb"),
    show_default=True,
    help="Folder of the knowledge base.",
    callback=_day_first,
)
"""Every command takes it."""


def checked(folder: Path) -> Checked:
    """Read and check the folder that the user named."""
    with patience("Reading the knowledge base"):
        return check(folder, day(), cache.place())


def day() -> dt.date:
    """Today, or the day that the user set."""
    try:
        return clock.today()
    except ValueError as error:
        raise misuse(str(error)) from error


def report(result: Checked, folder: Path) -> None:
    """Show findings on the error stream, where they do not mix with a command's own output."""
    context = replace(context_for(folder, err=True), accepted=len(result.accepted))
    say(text.render(result.findings, context), err=True, colour=context.colour, fit=True)
