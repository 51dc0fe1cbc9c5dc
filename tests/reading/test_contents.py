"""Many files are read by two processes as one reads them, good and bad ones."""

from __future__ import annotations

import os
import signal
from collections.abc import Sequence

import pytest

from kbtools.edges import beside
from kbtools.edges.shipped import shapes, tables
from kbtools.reading import contents
from kbtools.reading.one_file import Content, read_file
from kbtools.reading.reader import Reading, read
from kbtools.reading.source import SourceFile
from kbtools.rules import samples
from tests.support.places import ROOT

SHAPES = shapes()
BAD = [b"", b"\xff\xfe", b"title: [", b"title: 5\ntitle: 6\n", b"<<<<<<< one\na: 1\n=======\n", b"- " * 200, b"\0"]
"""Nothing, no text, cut off, twice, a conflict, too deep, a control character."""

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="no second process is to be had here")


def files() -> list[SourceFile]:
    examples = sorted((ROOT / "tests/examples").rglob("*.yml"))
    entry = next(path for path in samples.FILES if path.startswith("faults/"))
    told: dict[str, bytes] = {path: text.encode() for path, text in samples.FILES.items()}
    told |= {f"faults/charging/odd-{number}.yml": data for number, data in enumerate(BAD)}
    told |= {f"faults/charging/again-{number}.yml": samples.FILES[entry].encode() for number in range(9)}
    told |= {f"faults/charging/example-{number}.yml": each.read_bytes() for number, each in enumerate(examples[:40])}
    return [SourceFile(path=path, data=data) for path, data in told.items()]


@pytest.fixture
def small(monkeypatch: pytest.MonkeyPatch) -> None:
    """So few files are many already."""
    monkeypatch.setattr(contents, "MUCH", 2)
    monkeypatch.setattr(contents, "_TOGETHER", 5)
    monkeypatch.setattr(beside, "two_at_once", lambda: True)


class Keeping:
    """A memory that knows nothing, and says what it was given."""

    def __init__(self) -> None:
        self.kept: dict[str, Content] = {}

    def contents(self, files: Sequence[SourceFile]) -> Sequence[Content | None]:
        return [None] * len(files)

    def keep(self, file: SourceFile, content: Content) -> None:
        self.kept[file.path] = content


def by_one() -> tuple[Reading, Keeping]:
    memory = Keeping()
    return read(files(), SHAPES, memory, tables=tables()), memory


@pytest.mark.usefixtures("small")
def test_two_read_what_one_reads(monkeypatch: pytest.MonkeyPatch) -> None:
    alone, kept = by_one()
    assert {each.path for each in alone.findings} >= {f"faults/charging/odd-{number}.yml" for number in range(len(BAD))}
    here = noted(monkeypatch)
    memory = Keeping()
    both = read(files(), SHAPES, memory, tables=tables(), second=beside.stream_or_none)
    assert both == alone
    assert memory.kept == kept.kept
    assert 0 < len(here) < len(kept.kept), "one of the two has read nothing"


@pytest.mark.usefixtures("small")
@pytest.mark.parametrize("survives", [0, 1, 11])
def test_where_the_second_dies_the_first_reads_the_rest(monkeypatch: pytest.MonkeyPatch, survives: int) -> None:
    alone, _ = by_one()
    first = os.getpid()
    done = []

    def mortal(*arguments: object, **named: object) -> Content:
        if os.getpid() != first:
            done.append(1)
            if len(done) > survives:
                os.kill(os.getpid(), signal.SIGKILL)
        return read_file(*arguments, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(contents, "read_file", mortal)
    assert read(files(), SHAPES, None, tables=tables(), second=beside.stream_or_none) == alone


def noted(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """The files that this process reads, as it reads them."""
    here: list[object] = []

    def noting(*arguments: object, **named: object) -> Content:
        here.append(arguments[1])
        return read_file(*arguments, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(contents, "read_file", noting)
    return here
