"""`kbtools check`: everything that is wrong, in one run."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import click

from kbtools.cli.common import day, kb_option
from kbtools.cli.output import context_for, misuse, say
from kbtools.diagnostics import has_errors
from kbtools.edges import cache
from kbtools.edges.checking import findings_in, findings_since
from kbtools.edges.git import GitError
from kbtools.report.formats import FORMATS


@click.command()
@kb_option
@click.option("--format", "form", type=click.Choice(list(FORMATS)), default="text", show_default=True)
@click.option(
    "--changed-since",
    "revision",
    metavar="REV",
    help="Only what the branch is answerable for: findings in the files that differ from where it left REV "
    "(uncommitted changes count), and findings elsewhere that are new with it.",
)
@click.option("--no-cache", is_flag=True, help="Read every file anew, keep nothing.")
def check(folder: Path, form: str, revision: str | None, no_cache: bool) -> None:
    """Find everything that is wrong with the knowledge base.

    Exit code 0: nothing, or warnings only. 1: errors. 2: the command was called wrongly.
    """
    kept = None if no_cache else cache.place()
    older = accepted = 0
    if revision is None:
        found = findings_in(folder, day(), kept)
        findings, accepted = found.findings, len(found.accepted)
    else:
        try:
            findings, older = findings_since(folder, day(), revision, kept)
        except GitError as error:
            raise misuse(f"The branch cannot be compared with {revision!r}: {error}") from error
    context = replace(context_for(folder), accepted=accepted)
    say(FORMATS[form](findings, context), colour=context.colour, commands=form == "github")
    if older:
        say(f"Not shown: {older} that were there before, in files that the branch does not touch.\n", err=True)
    raise SystemExit(1 if has_errors(list(findings)) else 0)
