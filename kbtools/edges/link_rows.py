"""Links with the lines at which they stand: files are looked into again, since a check keeps no places."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

from kbtools.edges.folder import source_file
from kbtools.index.links import LinkPlace, outside_links
from kbtools.links.answer import Answer, is_reserved
from kbtools.model.base import KnowledgeBase
from kbtools.reading.places import Document
from kbtools.report.links import Row, Stand


def link_rows(base: KnowledgeBase, folder: Path, answers: Mapping[str, Answer]) -> list[Row]:
    """Every link of a base, with what came back and where it stands, in the order of the files.

    Args:
        base: what was read.
        folder: from which it was read.
        answers: of the links that were asked.
    """
    documents: dict[str, Document] = {}

    def stand(place: LinkPlace, url: str) -> Stand:
        if place.path not in documents:
            data = source_file(folder, place.path).data
            text = None if data is None else data.decode("utf-8-sig", "replace")
            documents[place.path] = Document(path=place.path, text=text, is_yaml=place.index is None)
        document = documents[place.path]
        mark = document.piece(place.pointer, url) if place.index is None else document.index(place.index)
        here = Path(os.path.relpath(folder / place.path)).as_posix()
        return Stand(path=here, mark=mark, archived=place.copy_of is not None)

    return [
        Row(
            url=url,
            answer=answers.get(url),
            reserved=is_reserved(url),
            stands=tuple(stand(each, url) for each in places),
        )
        for url, places in outside_links(base).items()
    ]
