"""`kbtools links`: which outside links still lead somewhere. The only command that needs a network."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import click

from kbtools import __version__
from kbtools.cli.common import checked, day, kb_option
from kbtools.cli.output import patience, say
from kbtools.edges.links import VARIABLE, Bounds, ask_all, keep_answers, kept_answers, kept_file
from kbtools.edges.network import Network
from kbtools.index.links import outside_links
from kbtools.links.answer import gone, is_reserved
from kbtools.links.kept import longest_ago_first
from kbtools.links.who import user_agent

BOUNDS = Bounds()
NETWORK = Network()
"""Tests put others in their place."""


@click.command(name="links")
@kb_option
@click.option("--format", "form", type=click.Choice(["text", "github", "json"]), default="text", show_default=True)
@click.option(
    "--keep",
    type=click.Path(dir_okay=False, path_type=Path),
    help="File for what came back; the agenda and the site read it. Without it, the file that "
    f"{VARIABLE} names, or links.json beside the knowledge base if it is there, or one in the cache folder.",
)
@click.option(
    "--issue",
    type=click.Path(dir_okay=False, path_type=Path),
    help="Also write what died to this file, as Markdown for an issue; empty if nothing did.",
)
@click.option(
    "--minutes",
    type=click.FloatRange(min=0, min_open=True),
    default=BOUNDS.all / 60,
    show_default=True,
    help="For all links together; those that had no turn come first next time.",
)
def links_command(folder: Path, form: str, keep: Path | None, issue: Path | None, minutes: float) -> None:
    """Ask every outside link and archived copy whether it still leads somewhere.

    Each host is asked one thing at a time, with a pause. Addresses that are not of the public internet are never asked,
    nor names that are reserved for examples. A host that refuses programs makes a link "not sure", not dead.

    Exit code 0: none died. 1: some died. 2: called wrongly, or nobody answered; then nothing is kept.
    """
    from kbtools.edges.link_rows import link_rows  # noqa: PLC0415 (loads what the other commands do without)
    from kbtools.report import links as words  # noqa: PLC0415

    base = checked(folder).base
    file = keep or kept_file(folder)
    kept = kept_answers(file, day())
    urls = longest_ago_first((url for url in outside_links(base) if not is_reserved(url)), kept)
    network = replace(NETWORK, said_by=user_agent(__version__, base.club))
    with patience("Asking the links"):
        asked = ask_all(urls, day(), network, replace(BOUNDS, all=min(minutes * 60, 86_400)))
    if asked.answers and not asked.heard:
        say("Not one of the hosts answered, so there seems to be no network. Nothing was kept.\n", err=True)
        raise SystemExit(2)
    if file is not None and asked.answers:
        keep_answers(file, kept | asked.answers)
    rows = link_rows(base, folder, asked.answers)
    if issue is not None:
        issue.write_text(words.render_issue(rows), encoding="utf-8")
    renders = {"text": words.render_text, "github": words.render_github, "json": words.render_json}
    say(renders[form](rows), commands=form == "github")
    raise SystemExit(1 if gone(asked.answers) else 0)
