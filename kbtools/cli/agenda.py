"""`kbtools agenda`: what a curator does next."""

from __future__ import annotations

from pathlib import Path

import click

from kbtools.cli.common import checked, day, kb_option
from kbtools.cli.output import say
from kbtools.edges.checking import in_folder
from kbtools.edges.links import kept_answers, kept_file


@click.command()
@kb_option
@click.option("--format", "form", type=click.Choice(["text", "markdown", "json"]), default="text", show_default=True)
def agenda(folder: Path, form: str) -> None:
    """Say what to do next, most useful first, with why and about how long.

    Reviews that are due, spread over the year; second readers wanted; causes that cases share; cases that no entry has;
    near-duplicates, contradictions, drafts that wait; links that were dead when `kbtools links` asked them last.

    Exit code 0, however much there is.
    """
    # They load the comparison of entries, and the other commands do without it.
    from kbtools.agenda.compose import agenda as composed  # noqa: PLC0415
    from kbtools.agenda.dead_links import dead_links  # noqa: PLC0415
    from kbtools.report import agenda as words  # noqa: PLC0415

    found = checked(folder)
    dead = dead_links(found.base, kept_answers(kept_file(folder), day()))
    jobs = composed(found.base, in_folder(found.findings, folder), day(), dead)
    renders = {"text": words.render_text, "markdown": words.render_markdown, "json": words.render_json}
    say(renders[form](jobs))
