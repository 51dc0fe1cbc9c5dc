"""Pictures that the site publishes, each in its widths."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path, PurePosixPath

from mkdocs.exceptions import PluginError

from kbtools.edges.pictures import PictureError, Rendition, published
from kbtools.edges.rendering import Width
from kbtools.index.pictures import of_entries
from kbtools.model.base import KnowledgeBase
from kbtools.model.memory import Memory
from kbtools.reading.layout import output_of


def pictures(
    knowledge: KnowledgeBase, folder: Path, memory: Memory | None = None
) -> Iterator[tuple[str, tuple[Rendition, ...]]]:
    """Path and widths, the widest last, of each picture of a hand-written page, and of an entry that says who looked.

    Raises:
        PluginError: one was changed since it was looked at.
    """
    looked_at = of_entries(knowledge)
    for picture in knowledge.pictures:
        if picture.path.startswith("pages/") or picture.path in looked_at:
            try:
                yield picture.path, published(folder, picture, memory)
            except PictureError as error:
                raise PluginError(f"{picture.path}: {error.problem}. {error.hint}") from error


def place(rendition: Rendition) -> str:
    """Where one is written, from the site's root."""
    return output_of(PurePosixPath(rendition.path))


def width(rendition: Rendition) -> Width:
    """What a page needs to know of one."""
    return Width(path=place(rendition), width=rendition.width, height=rendition.height)
