"""`kbtools check`: everything that is wrong, in one run."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path, PurePosixPath

import click

from kbtools.cli.common import checked, day, kb_option
from kbtools.cli.output import context_for, misuse, patience, say
from kbtools.diagnostics import Finding, has_errors
from kbtools.edges import cache
from kbtools.edges.checking import findings_in, findings_since
from kbtools.edges.git import GitError
from kbtools.report.formats import FORMATS


@click.command()
@kb_option
@click.argument("files", nargs=-1, metavar="[FILE]...", type=click.Path(path_type=Path))
@click.option("--format", "form", type=click.Choice(list(FORMATS)), default="text", show_default=True)
@click.option(
    "--changed-since",
    "revision",
    metavar="REV",
    help="Only what the branch is answerable for: findings in the files that differ from where it left REV "
    "(uncommitted changes count), and findings elsewhere that are new with it.",
)
@click.option("--no-cache", is_flag=True, help="Read every file anew, keep nothing.")
def check(folder: Path, files: tuple[Path, ...], form: str, revision: str | None, no_cache: bool) -> None:
    """Find everything that is wrong with the knowledge base.

    With FILEs, or folders, the whole base is looked at and what is wrong with these is shown. Of one entry without a
    mistake it says what owners will read.

    Exit code 0: nothing, or warnings only. 1: errors. 2: the command was called wrongly.
    """
    if files and revision is not None:
        raise misuse("FILEs and --changed-since are two questions; ask one at a time.")
    named = [_named(each, folder) for each in files]
    kept = None if no_cache else cache.place()
    older = accepted = 0
    looked_at: Sequence[str] = ()
    with patience("Checking the knowledge base"):
        if revision is None:
            found = findings_in(folder, day(), kept)
            findings, accepted, looked_at = found.findings, len(found.accepted), found.looked_at
        else:
            try:
                findings, older = findings_since(folder, day(), revision, kept)
            except GitError as error:
                raise misuse(f"The branch cannot be compared with {revision!r}: {error}") from error
    every = len(findings)
    findings = tuple(each for each in findings if _among(each, named, folder))
    context = replace(context_for(folder), accepted=accepted, looked_at=looked_at if not named else ())
    say(FORMATS[form](findings, context), colour=context.colour, commands=form == "github", fit=form == "text")
    if form == "text" and named:
        _about_one(folder, named, findings, looked_at)
    if every > len(findings):
        say(f"Not shown: {every - len(findings)} in other files.\n", err=True)
    if older:
        say(f"Not shown: {older} that were there before, in files that the branch does not touch.\n", err=True)
    raise SystemExit(1 if has_errors(list(findings)) else 0)


def _named(file: Path, folder: Path) -> str:
    """A file or a folder that the user names, relative to the knowledge base; empty for all of it.

    Raises:
        click.UsageError: it is not there, or not in the knowledge base.
    """
    if not os.path.lexists(file):
        raise misuse(f"There is no file {str(file)!r}.")
    way = PurePosixPath(Path(os.path.relpath(file.resolve(), folder.resolve())).as_posix())
    if way.parts[:1] == ("..",):
        raise misuse(f"{str(file)!r} is not in the knowledge base {str(folder)!r}; --kb names another one.")
    return "" if str(way) == "." else str(way)


def _among(finding: Finding, named: Sequence[str], folder: Path) -> bool:
    return not named or _inside(Path(os.path.relpath(finding.path, folder)).as_posix(), named)


def _inside(path: str, named: Sequence[str]) -> bool:
    """Whether a file is one of those named, or below a folder that is."""
    return any(each in {"", path} or path.startswith(f"{each}/") for each in named)


def _about_one(folder: Path, named: Sequence[str], findings: Sequence[Finding], looked_at: Sequence[str]) -> None:
    """How much was looked at; and of one entry without errors, what owners will read."""
    chosen = [path for path in looked_at if _inside(path, named)]
    which = "this one" if len(chosen) == 1 else f"{len(chosen)} of them"
    say(f"Looked at all {len(looked_at)} files; shown is what concerns {which}.\n", fit=True)
    if len(chosen) == 1 and chosen[0].startswith("faults/") and not has_errors(list(findings)):
        said = _published(folder, chosen[0])
        say(said, fit=True)


def _published(folder: Path, path: str) -> str:
    # They load scipy, and a check of the whole base does without it.
    from kbtools.changes.advice import plans, reckoned_with  # noqa: PLC0415
    from kbtools.index.build import build_index  # noqa: PLC0415
    from kbtools.report.published import render  # noqa: PLC0415

    base = checked(folder).base
    fault = base.faults.get(PurePosixPath(path).stem)
    if fault is None or fault.path != path or fault.damaged or base.club is None:
        return ""
    return render(fault, plans(reckoned_with(fault, build_index(base, day()))), base.club.currency)
