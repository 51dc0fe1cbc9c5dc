"""What a terminal can show, and printing so that no text of an author makes it fail."""

from __future__ import annotations

import contextlib
import os
import shutil
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import IO, Any, TextIO

import click

from kbtools.edges.folder import source_file
from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import shapes
from kbtools.reading.reader import read
from kbtools.reading.source import lines_of
from kbtools.report.context import ReportContext
from kbtools.text.terminal import for_terminal
from kbtools.text.width import fitted
from kbtools.wording import addresses

_PATIENCE, _AGAIN = 1.0, 5.0
"""Seconds before something that takes long is named, and before it is named again."""
_ELSEWHERE = 100
"""Columns where the output goes to no terminal: to a file, a mail, a job's log."""


def stream(*, err: bool = False) -> TextIO | None:
    """Where the command prints to now; tests and other programs may have put something in its place.

    None: the stream was closed before the program began, and what is printed goes nowhere.
    """
    return sys.stderr if err else sys.stdout


class LostOutputError(click.ClickException):
    """What the command says cannot be written: whoever reads it has gone, or the disk is full."""

    def __init__(self, error: OSError, *, err: bool) -> None:
        gone = isinstance(error, BrokenPipeError)
        why = "nobody reads it any more" if gone else (error.strerror or str(error)).lower()
        super().__init__(f"The output ends here: {why}.")
        self._err = err

    def show(self, file: IO[Any] | None = None) -> None:  # noqa: ARG002 - click's signature
        """Say so, if there is still a stream for it; what waits to be written is given up."""
        _give_up(stream(err=self._err))
        if not self._err:
            try:
                click.echo(self.message, err=True)
            except OSError:
                _give_up(stream(err=True))


def _give_up(lost: TextIO | None) -> None:
    """Lead a stream nowhere, or Python would try once more at its end, and complain."""
    # Streams of tests and of other programs may have no number.
    with contextlib.suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, -1 if lost is None else lost.fileno())
        os.close(nowhere)


def wants_colour(to: TextIO | None) -> bool:
    """Whether to print in colours: on a terminal that can, unless the user said otherwise.

    NO_COLOR (no-color.org) and FORCE_COLOR (force-color.org) count where they are not empty; the first one wins.
    """
    if os.environ.get("NO_COLOR"):
        return False
    if os.environ.get("FORCE_COLOR"):
        return True
    return to is not None and to.isatty() and os.environ.get("TERM") != "dumb"


def context_for(folder: Path, *, err: bool = False) -> ReportContext:
    """What a report on the knowledge base in `folder` may show and look up."""
    to = stream(err=err)
    kept: dict[str, list[str]] = {}

    def lines(path: str) -> list[str]:
        if path not in kept:
            # Findings come file by file; one file at a time is enough to keep.
            kept.clear()
            kept[path] = lines_of(source_file(folder, Path(os.path.relpath(path, folder)).as_posix()).data or b"")
        return kept[path]

    return ReportContext(
        lines=lines,
        colour=wants_colour(to),
        width=shutil.get_terminal_size().columns if to is not None and to.isatty() else _ELSEWHERE,
        rules=lambda: rulebook().rules,
        rule_pages=lambda: _rule_pages(folder),
    )


def _rule_pages(folder: Path) -> str | None:
    """Where the club's site has the rule reference, by club.yml alone."""
    # Texts need the Markdown library, which a check does not load.
    from kbtools.text.html import web_link  # noqa: PLC0415

    club = read([source_file(folder, "club.yml")], shapes()).base.club
    site = None if club is None else web_link(club.site_url)
    return None if site is None else f"{site.rstrip('/')}/{addresses.RULES}"


@contextlib.contextmanager
def patience(what: str) -> Iterator[None]:
    """Say what is being done if it takes longer than a second, and again every few: on a terminal, and nowhere else.

    Args:
        what: is being done, at the start of a sentence.
    """
    to = stream(err=True)
    if to is None or not to.isatty():
        yield
        return
    done = threading.Event()

    def tell() -> None:
        started, wait = time.monotonic(), _PATIENCE
        while not done.wait(wait):
            say(f"{what} … {time.monotonic() - started:.0f} s\n", err=True)
            wait = _AGAIN

    telling = threading.Thread(target=tell, daemon=True)
    telling.start()
    try:
        yield
    finally:
        done.set()
        telling.join()


def say(text: str, *, err: bool = False, colour: bool | None = None, commands: bool = False, fit: bool = False) -> None:
    """Print, whatever the stream can carry: a character that it cannot is written out.

    Everything that a command prints goes through here, so that no text of an author acts in a terminal or in a log.

    Args:
        text: whole lines.
        err: to the error stream.
        colour: whether our own colours are in it; None: if the stream shows colours.
        commands: the lines are meant for the runner of a job, and their texts escaped for it already.
        fit: on a terminal, break lines between words that are wider than its window; not for what programs read.

    Raises:
        LostOutputError: the stream does not take it.
    """
    coloured = wants_colour(stream(err=err)) if colour is None else colour
    safe = text if commands else for_terminal(text, colour=coloured)
    to = stream(err=err)
    if fit and to is not None and to.isatty():
        safe = fitted(safe, shutil.get_terminal_size().columns)
    encoding = getattr(stream(err=err), "encoding", None) or "utf-8"
    printable = safe.encode(encoding, "backslashreplace").decode(encoding)
    try:
        click.echo(printable, err=err, nl=False, color=coloured)
    except OSError as error:
        raise LostOutputError(error, err=err) from error


def misuse(message: str) -> click.UsageError:
    """The error that a command was called wrongly, for texts that may be an author's; exit code 2."""
    return click.UsageError(for_terminal(message))


def refused(error: OSError) -> click.ClickException:
    """What the system refuses, in a sentence; exit code 1."""
    where = f" ({os.fsdecode(error.filename)})" if isinstance(error.filename, str | bytes) else ""
    return click.ClickException(for_terminal(f"{error.strerror or error}{where}."))
