"""`kbtools evidence`: where one more case would help most."""

from __future__ import annotations

from pathlib import Path

import click

from kbtools.cli.common import checked, day, kb_option, report
from kbtools.cli.output import say
from kbtools.index.build import build_index
from kbtools.text.terminal import json_text


@click.command()
@kb_option
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
def evidence(folder: Path, form: str) -> None:
    """Show how sure each fault's shares are, and where one more case would help most: those faults stand first.

    \b
    cases      counted: solved, and ridden far enough since or verified
    widest     width of the widest 90 % interval of its causes' shares
    spread     how far the shares may be off: the root of their summed variances
    narrows    by how much the spread falls with one more case, on average
               over what that case may turn out to be; the table is in this order
    saves      what the plan is expected to save an owner of whom nothing is
               known, beside handing over at once, and beside the likeliest first

    The narrowing is large where few cases meet many likely causes; it does not depend on what they cost.
    """  # noqa: D301 (click's sign for lines that stay as they are is this character)
    # They load scipy, and the other commands do without it.
    from kbtools.checkplan.where_cases_help import evidence_row_record, evidence_rows  # noqa: PLC0415
    from kbtools.report.evidence import render  # noqa: PLC0415

    result = checked(folder)
    if result.base.club is None:
        report(result, folder)
        raise SystemExit(1)
    rows = evidence_rows(build_index(result.base, day()))
    if form == "json":
        say(json_text([evidence_row_record(row) for row in rows]))
    else:
        say(render(rows), fit=True)
