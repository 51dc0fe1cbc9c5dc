"""The texts of a file, told from ids, numbers and words of a list by its schema."""

from __future__ import annotations

import functools
from collections.abc import Iterator, Sequence
from pathlib import PurePosixPath
from typing import Any

from kbtools.model.writing import TextKind, Writing
from kbtools.reading.comments import Comment
from kbtools.reading.places import show
from kbtools.reading.shape import TextPlaces

_Texts = dict[TextKind, tuple[list[str], list[str]]]
"""Kind to the texts and, beside them, the pointers."""


@functools.lru_cache(maxsize=10_000)
def _one(pointer: str) -> str:
    """One string for all equal ones: entries have the same keys, so most pointers are those of other entries."""
    return pointer


def file_writings(path: str, data: Any, places: TextPlaces, comments: Sequence[Comment]) -> Iterator[Writing]:
    """The texts of a YAML file, its comments and its name.

    Args:
        path: of the file.
        data: what is left of it after its mistakes of form were taken out, so that nothing more is said of these.
        places: where its schema has texts.
        comments: in order.
    """
    names = _names(path)
    found: _Texts = {"id": (names, [""] * len(names))}
    _collect(data, places, "", found)
    for kind, (texts, pointers) in found.items():
        if texts:
            yield Writing(path=path, kind=kind, texts=tuple(texts), pointers=tuple(pointers))
    if comments:
        texts, starts = [each.text for each in comments], tuple(each.start for each in comments)
        yield Writing(path=path, kind="comment", texts=tuple(texts), pointers=("",) * len(texts), starts=starts)


def page_writings(path: str, text: str | None) -> Iterator[Writing]:
    """The text of a hand-written page, as far as it can be read, and its name."""
    yield name_writing(path)
    if text is not None:
        yield Writing(path=path, kind="page", texts=(text,), pointers=("",), starts=(0,))


def name_writing(path: str) -> Writing:
    """The name of a page or of a picture, and of the folders that it stands in."""
    names = tuple(_names(path))
    return Writing(path=path, kind="id", texts=names, pointers=("",) * len(names))


def _names(path: str) -> list[str]:
    """The names in a path that an author made up: not the folder of the kind, not the ending."""
    pure = PurePosixPath(path)
    return [*pure.parts[1:-1], pure.stem] if len(pure.parts) > 1 else []


def _collect(value: Any, places: TextPlaces, at: str, found: _Texts) -> None:
    """Add the texts in a value; as deep as the schema knows, so at most as deep as the parser lets a file be."""
    if isinstance(value, str):
        if places.kind is not None:
            _add(places.kind, value, at, found)
    elif isinstance(value, dict):
        for key, inner in places.keys.items():
            if key in value:
                _collect(value[key], inner, f"{at}/{key}", found)
        if places.others is not None:
            for key in value.keys() - places.keys.keys():
                pointer = at + show((key,))
                _add("key", key, pointer, found)
                _collect(value[key], places.others, pointer, found)
    elif isinstance(value, list) and places.items is not None:
        for index, each in enumerate(value):
            _collect(each, places.items, f"{at}/{index}", found)


def _add(kind: TextKind, text: str, at: str, found: _Texts) -> None:
    texts, pointers = found.setdefault(kind, ([], []))
    texts.append(text)
    pointers.append(_one(at))
