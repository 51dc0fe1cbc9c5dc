"""What each of many files says: so many read at a time that their raw content takes little room."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Final, Protocol

from kbtools.model.second import Stream, no_stream
from kbtools.reading.layout import Placed
from kbtools.reading.one_file import Content, read_file
from kbtools.reading.shape import Shape
from kbtools.reading.source import SourceFile

_TOGETHER: Final = 500
"""Files whose raw content is held at once; a store is asked for so many in one go."""
MUCH: Final = 1_000
"""So many files of which nothing is known are worth a second process."""
_OF_THREE: Final = 3
"""Of so many batches the second process reads all but one: the first makes typed values of all of them meanwhile."""

Files = Sequence[tuple[Placed, SourceFile]]


class Memory(Protocol):
    """What files said when they were read before, so that an unchanged one need not be read again."""

    def contents(self, files: Sequence[SourceFile]) -> Sequence[Content | None]:
        """What these very files said; None where that is not known."""

    def keep(self, file: SourceFile, content: Content) -> None:
        """Take in what a file said."""


class Contents:
    """Reads files by their shapes."""

    def __init__(self, shapes: Mapping[str, Shape], memory: Memory | None, second: Stream = no_stream) -> None:
        """`memory` is asked for each file first; `second` reads some of many fresh ones meanwhile."""
        self._shapes = shapes
        self._memory = memory
        self._second = second

    def of(self, placed: Iterable[tuple[Placed, SourceFile]]) -> Iterator[tuple[Placed, Content]]:
        """What each says, in their order."""
        files = list(placed)
        batches = [files[at : at + _TOGETHER] for at in range(0, len(files), _TOGETHER)]
        if not batches:
            return
        # A base is known or new as a whole: who knows something of the first ones is asked for the others too.
        known = self._known(batches[0])
        if known or len(files) < MUCH:
            yield from self._said(batches[0], known)
            for each in batches[1:]:
                yield from self._said(each, self._known(each))
        else:
            yield from self._by_two(batches)

    def _by_two(self, batches: Sequence[Files]) -> Iterator[tuple[Placed, Content]]:
        aside = [each for at, each in enumerate(batches) if at % _OF_THREE]
        with self._second(lambda: map(self._read, aside)) as stream:
            for at, each in enumerate(batches):
                # Where the second process has ended too soon, the first reads what is left.
                read = next(stream, None) if at % _OF_THREE else None
                for (where, file), content in zip(each, self._read(each) if read is None else read, strict=True):
                    self._keep(where, file, content)
                    yield where, _sharing(content, file)

    def _known(self, files: Files) -> dict[str, Content]:
        if self._memory is None:
            return {}
        asked = [file for where, file in files if _is_kept(where)]
        found = zip(asked, self._memory.contents(asked), strict=True)
        return {file.path: content for file, content in found if content is not None}

    def _said(self, files: Files, known: dict[str, Content]) -> Iterator[tuple[Placed, Content]]:
        for where, file in files:
            content = known.pop(file.path, None)
            if content is None:
                content = read_file(where, file, self._shapes)
                self._keep(where, file, content)
            yield where, content

    def _read(self, files: Files) -> list[Content]:
        return [read_file(where, file, self._shapes) for where, file in files]

    def _keep(self, where: Placed, file: SourceFile, content: Content) -> None:
        if self._memory is not None and _is_kept(where):
            self._memory.keep(file, content)


def _is_kept(where: Placed) -> bool:
    """A page is soon read."""
    return where.kind not in {"page", None}


def _sharing(content: Content, file: SourceFile) -> Content:
    """With the file's own bytes, if it has a copy of them that came from the second process."""
    document = content.document
    if document.text is file.data or document.text != file.data:
        return content
    return dataclasses.replace(content, document=dataclasses.replace(document, text=file.data))
