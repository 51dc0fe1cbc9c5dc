"""The small sample base with a piece of it changed, and what is found then."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from kbtools.diagnostics import Finding
from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import shapes, tables
from kbtools.linting.run import Linted, Rulebook, examine
from kbtools.reading.reader import Reading, read
from kbtools.reading.source import SourceFile
from kbtools.rules import samples

TODAY = dt.date(2026, 6, 1)
FAULT = "faults/charging/lamp-flickers.yml"
DRAFT = "faults/charging/battery-flat.yml"
GONE = "faults/charging/lamp-glows.yml"
CASE = "cases/2026/wren-400-0001.yml"
MODEL = "models/wren-400.yml"
ACCEPTED = "accepted.yml"
SHAPES = shapes()


def changed(path: str, old: str, new: str, files: Mapping[str, str] = samples.FILES) -> dict[str, str]:
    """The files with a piece of one replaced, which must stand there once."""
    assert files[path].count(old) == 1, (path, old)
    return {**files, path: files[path].replace(old, new)}


def with_file(path: str, text: str, files: Mapping[str, str] = samples.FILES) -> dict[str, str]:
    return {**files, path: text}


def read_files(files: Mapping[str, str] | Mapping[str, bytes]) -> Reading:
    """A base of these files, by path."""
    sources = (
        SourceFile(path=path, data=each if isinstance(each, bytes) else each.encode()) for path, each in files.items()
    )
    return read(sources, SHAPES, tables=tables())


def linted(files: Mapping[str, str], today: dt.date = TODAY, book: Rulebook | None = None) -> Linted:
    return examine(read_files(files), book or rulebook(), today)


def findings(files: Mapping[str, str], today: dt.date = TODAY, book: Rulebook | None = None) -> tuple[Finding, ...]:
    return linted(files, today, book).findings


def places(found: tuple[Finding, ...]) -> list[str]:
    """`rule file:line:column` of each."""
    return [f"{each.rule} {each.path.rsplit('/', 1)[-1]}:{each.mark.line}:{each.mark.column}" for each in found]
