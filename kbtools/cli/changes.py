"""`kbtools changes`: what the files as they are change in the published advice."""

from __future__ import annotations

from pathlib import Path

import click

from kbtools.cli.common import day, kb_option
from kbtools.cli.output import misuse, say
from kbtools.edges import cache
from kbtools.edges.checking import advice_since
from kbtools.edges.git import GitError


@click.command()
@kb_option
@click.option(
    "--since",
    "revision",
    metavar="REV",
    default="HEAD",
    help="Compare with where this branch left REV. Without it, with the last commit.",
)
@click.option("--format", "form", type=click.Choice(["text", "markdown", "json"]), default="text", show_default=True)
def changes(folder: Path, revision: str, form: str) -> None:
    """Say what a change does to the advice that owners read.

    For each fault: may I ride it, the first step, the likeliest cause, what it costs, and which files are behind that.
    Milder ride advice stands first. Uncommitted changes count.

    Exit code 0, whatever changes. 2: there is nothing to compare with.
    """
    from kbtools.report import changes as words  # noqa: PLC0415 (loads scipy, and the other commands do without it)
    from kbtools.report import changes_markdown  # noqa: PLC0415

    try:
        found = advice_since(folder, day(), revision, cache.place())
    except GitError as error:
        raise misuse(f"The files cannot be compared with {revision!r}: {error}") from error
    if form == "json":
        say(words.render_json(found))
    else:
        say((changes_markdown if form == "markdown" else words).render(found, found.currency), fit=form == "text")
    if form != "markdown":
        for sentence in words.unread(found):
            say(f"{sentence}\n", err=True)
