"""The demo with more files beside it; what its own files say is read once in each worker."""

from __future__ import annotations

import functools
from collections.abc import Sequence

from kbtools.edges.folder import files
from kbtools.edges.shipped import shapes, tables
from kbtools.reading.one_file import Content
from kbtools.reading.reader import Reading, read
from kbtools.reading.source import SourceFile
from tests.support.places import DEMO


class _Memory:
    def __init__(self) -> None:
        self._known: dict[SourceFile, Content] = {}

    def contents(self, files: Sequence[SourceFile]) -> Sequence[Content | None]:
        return [self._known.get(each) for each in files]

    def keep(self, file: SourceFile, content: Content) -> None:
        self._known[file] = content


_MEMORY = _Memory()


@functools.cache
def _files() -> tuple[SourceFile, ...]:
    return tuple(files(DEMO))


def demo_with(*more: SourceFile) -> Reading:
    """The demo with these files beside its own."""
    return read([*_files(), *more], shapes(), _MEMORY, tables=tables())
