"""A live server whose build costs nothing; what a build has made."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from kbtools.site.written_pages import Output, Writer, path_of
from tests.support.live_desk import Desk, running


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    """One that runs, and has built once."""
    with running(Desk(tmp_path)) as desk:
        yield desk


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Paths of what was made since the list was emptied."""
    paths: list[str] = []
    make = Writer._made

    def noted(self: Writer, output: Output) -> object:
        paths.append(path_of(output))
        return make(self, output)

    monkeypatch.setattr(Writer, "_made", noted)
    return paths
