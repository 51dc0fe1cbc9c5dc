"""`kbtools check`: everything that is wrong, in one run."""

from __future__ import annotations

from pathlib import Path

import click

from kbtools.cli.common import checked, kb_option
from kbtools.report.formats import FORMATS


@click.command()
@kb_option
@click.option("--format", "form", type=click.Choice(list(FORMATS)), default="text", show_default=True)
def check(folder: Path, form: str) -> None:
    """Find everything that is wrong with the knowledge base.

    Exit code 0: nothing, or warnings only. 1: errors. 2: the command was called wrongly.
    """
    result = checked(folder)
    click.echo(FORMATS[form](result.findings), nl=False)
    raise SystemExit(0 if result.sound else 1)
