"""Files that are broken in 20,000 ways: never a breakdown, never a hang, and every finding's place is in its file."""

from __future__ import annotations

import datetime as dt
import faulthandler
import random
from collections.abc import Iterator

import pytest

from kbtools.diagnostics import Finding
from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import shapes, tables
from kbtools.linting.run import lint
from kbtools.reading.one_file import Content
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile, decode
from kbtools.rules import samples
from tests.support.mutations import MUTATIONS

FILES = 5_000
"""Of each kind of mutation."""
SEED = 20261125
TODAY = dt.date(2026, 6, 1)
HANG = 60
"""Seconds after which one file counts as a hang: a hundred times what the slowest takes on a busy machine."""
YAML_RULES = {"KB101", "KB106", "KB107", "KB108", "KB110"}
"""Of these the file is no YAML, or none that is looked into."""


class Unchanged:
    """The files of the sample base, read once."""

    def __init__(self) -> None:
        self._known: dict[tuple[str, bytes | None], Content] = {}

    def content(self, file: SourceFile) -> Content | None:
        return self._known.get((file.path, file.data))

    def keep(self, file: SourceFile, content: Content) -> None:
        if samples.FILES.get(file.path, "").encode() == file.data:
            self._known[file.path, file.data] = content


@pytest.fixture(autouse=True)
def no_hang() -> Iterator[None]:
    yield
    faulthandler.cancel_dump_traceback_later()


def misplaced(finding: Finding, files: dict[str, bytes]) -> bool:
    """Whether the finding points outside of its file."""
    text = decode(SourceFile(path=finding.path, data=files.get(finding.path, b"")))[0]
    if text is None:
        # Not decodable as a whole: the lines before the bad byte still count.
        text = files[finding.path].decode("utf-8-sig", errors="replace")
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    line, column = finding.mark.line, finding.mark.column
    return not (1 <= line <= len(lines) and 1 <= column <= len(lines[line - 1]) + 1)


@pytest.mark.parametrize("kind", MUTATIONS)
def test_no_broken_file_breaks_the_check(kind: str) -> None:
    known, unchanged, choose = shapes(), Unchanged(), random.Random(f"{SEED} {kind}")
    whole = {name: text.encode() for name, text in samples.FILES.items()}
    paths = [path for path in whole if path.endswith(".yml")]
    readable = flawed = 0
    for _ in range(FILES):
        path = choose.choice(paths)
        files = {**whole, path: MUTATIONS[kind](samples.FILES[path], choose)}
        faulthandler.dump_traceback_later(HANG, exit=True)
        sources = [SourceFile(path=name, data=data) for name, data in files.items()]
        findings = lint(read(sources, known, unchanged, tables=tables()), rulebook(), TODAY)
        readable += not any(each.rule in YAML_RULES and each.path == path for each in findings)
        flawed += bool(findings)
        for each in findings:
            assert each.rule != "KB001", (each, files[path])
            assert not misplaced(each, files), (each, files[path])
    if kind in {"structure", "values"}:
        # Most of what goes wrong must be beyond YAML, or little is tried: half of all mutations are of these kinds.
        assert readable > FILES * 2 / 3
    assert flawed > FILES / 2
