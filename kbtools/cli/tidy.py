"""`kbtools tidy`: the files in the one way in which they are written."""

from __future__ import annotations

import os
from pathlib import Path, PurePosixPath

import click

from kbtools.cli.common import kb_option
from kbtools.cli.output import misuse, say
from kbtools.edges.folder import files, source_file
from kbtools.edges.shipped import shapes
from kbtools.edges.writing import put_in_place
from kbtools.reading.source import SourceFile
from kbtools.reading.tidy import UntidyError, tidied
from kbtools.text.terminal import shown


@click.command()
@kb_option
@click.option("--check", "only_check", is_flag=True, help="Change nothing; exit code 1 if something would.")
@click.argument("names", nargs=-1, metavar="[FILE]…", type=click.Path(path_type=Path))
def tidy(folder: Path, names: tuple[Path, ...], only_check: bool) -> None:
    """Write files the way all files are written: keys in order, one style of lists and quotes.

    Comments stay, and what a file says stays. Without FILE all files of the knowledge base. What cannot be read is
    named and left as it is.

    Exit code 0: all are tidy now. 1: with --check, some are not; or some could not be read. 2: called wrongly.
    """
    shapes_now = shapes()
    wanted = [source_file(folder, _within(folder, name)) for name in names] if names else _all(folder)
    changed = left = 0
    for file in wanted:
        shown_name = shown(Path(os.path.relpath(folder / file.path)).as_posix())
        try:
            data = tidied(file, shapes_now)
        except UntidyError as error:
            left += 1
            say(f"{shown_name} stays as it is: {error}.\n", err=True)
            continue
        if data == file.data:
            continue
        if not only_check and not put_in_place(folder, file, data):
            left += 1
            say(f"{shown_name} stays as it is: somebody else has just changed it.\n", err=True)
            continue
        changed += 1
        say(f"{shown_name}\n")
    said = "would change" if only_check else "tidied"
    say(f"{len(wanted)} {'file' if len(wanted) == 1 else 'files'} looked at, {changed} {said}.\n", err=True)
    raise SystemExit(1 if left or (only_check and changed) else 0)


def _all(folder: Path) -> list[SourceFile]:
    """The YAML files of a knowledge base; what belongs nowhere, `kbtools check` tells."""
    found = [file for file in files(folder) if file.path.endswith(".yml") and not file.path.startswith("pages/")]
    return sorted(found, key=lambda file: file.path)


def _within(folder: Path, name: Path) -> str:
    """The path from the folder of the knowledge base.

    Raises:
        click.UsageError: it is not in the folder, or not there.
    """
    try:
        inner = Path(os.path.abspath(name)).relative_to(Path(os.path.abspath(folder)))  # noqa: PTH100 (follows no link)
    except ValueError:
        raise misuse(f"{name} is not in the folder {folder}; --kb names another one.") from None
    if not os.path.lexists(name):
        raise misuse(f"There is no file {name}.")
    return PurePosixPath(*inner.parts).as_posix()
