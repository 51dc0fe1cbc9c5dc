"""`kbtools code`: what a fault code says by itself, and which entries have it."""

from __future__ import annotations

from pathlib import Path

import click

from kbtools.cli.common import checked, kb_option
from kbtools.cli.output import say
from kbtools.index.codes import faults_by_sure_code, faults_of
from kbtools.model.codes import read_codes
from kbtools.report.codes import code_record, explain
from kbtools.text.terminal import json_text


@click.command()
@click.argument("texts", nargs=-1, required=True, metavar="TEXT…")
@kb_option
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
def code(texts: tuple[str, ...], folder: Path, form: str) -> None:
    """Read fault codes as owners type them, and say what their form tells and which entries have them."""
    base = checked(folder).base
    formats = base.club.code_formats if base.club is not None else ()
    known = faults_by_sure_code(base)
    # One a text, but for a control unit's raw answer with several codes in it.
    readings = [each for text in texts for each in read_codes(text, formats)]
    if form == "json":
        records = [code_record(reading, formats, known) for reading in readings]
        say(json_text(records))
        return
    for reading in readings:
        ids = [] if reading.code is None else faults_of(reading.code, known, formats)
        say(explain(reading, formats, [(each, base.faults[each].title) for each in ids]) + "\n", fit=True)
