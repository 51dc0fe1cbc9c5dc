"""The texts of files that were read before: made when somebody asks, which after an edit nearly nobody does."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from kbtools.model.base import HandPage
from kbtools.model.writing import Writing
from kbtools.reading.contents import Contents, Memory
from kbtools.reading.layout import Placed
from kbtools.reading.once import Once
from kbtools.reading.one_file import Content
from kbtools.reading.shape import Shape
from kbtools.reading.source import SourceFile
from kbtools.reading.writings import file_writings, page_writings


class Later:
    """Makes the texts of files."""

    def __init__(
        self, placed: Iterable[tuple[Placed, SourceFile]], shapes: Mapping[str, Shape], memory: Memory | None
    ) -> None:
        """`memory` is asked again for what each file said; where it does not know any more, the file is read."""
        self._placed = {file.path: (where, file) for where, file in placed}
        self._shapes = shapes
        self._memory = memory

    def writings(self, paths: Sequence[str]) -> Mapping[str, Sequence[Writing]]:
        """Those of files of entries, by path."""
        once = Once()
        contents = Contents(self._shapes, self._memory).of([self._placed[path] for path in paths])
        return {content.document.path: texts_of(where, content, self._shapes, once) for where, content in contents}


def texts_of(where: Placed, content: Content, shapes: Mapping[str, Shape], once: Once) -> Sequence[Writing]:
    """The texts of a file, entry or not."""
    if isinstance(content.data, HandPage):
        return tuple(page_writings(content.data.path, content.data.text))
    if where.kind is None or where.kind not in shapes:
        return ()
    if content.writings is not None:
        return once.writings(content.writings)
    return file_writings(content.document.path, content.data, shapes[where.kind].texts, content.comments, once)


def may_wait(content: Content) -> bool:
    """Whether the texts of a file are not made yet and cannot link anywhere, so that only its rules may want them."""
    source = content.document.text
    # What is escaped in YAML is not looked for, but taken to be there.
    return (
        content.writings is None and isinstance(source, bytes) and b"\\" not in source and b"http" not in source.lower()
    )
