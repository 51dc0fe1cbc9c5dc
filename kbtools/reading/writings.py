"""The texts of a file, told from ids, numbers and words of a list by its schema."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, Final

from kbtools.model.writing import TextKind, Writing
from kbtools.reading.comments import Comment
from kbtools.reading.once import Once
from kbtools.reading.places import show
from kbtools.reading.shape import TextPlaces

_Texts = dict[TextKind, tuple[list[str], list[str]]]
"""Kind to the texts and, beside them, the pointers."""
_NO_COMMENTS: Final[tuple[Comment, ...]] = ()


def file_writings(
    path: str, data: Any, places: TextPlaces, comments: Sequence[Comment] = _NO_COMMENTS, once: Once | None = None
) -> tuple[Writing, ...]:
    """The texts of a YAML file, its comments and its name.

    Args:
        path: of the file.
        data: what is left of it after its mistakes of form were taken out, so that nothing more is said of these.
        places: where its schema has texts.
        comments: in order.
        once: gives equal texts and pointers as one; None: nobody else's are looked at.
    """
    known = once or Once()
    names = _names(path)
    found: _Texts = {"id": (names, [""] * len(names))}
    _collect(data, places, "", found, known)
    writings = [
        Writing(path=path, kind=kind, texts=tuple(texts), pointers=known.row(tuple(pointers)))
        for kind, (texts, pointers) in found.items()
        if texts
    ]
    if comments:
        texts, starts = tuple(each.text for each in comments), tuple(each.start for each in comments)
        pointers = known.row(("",) * len(texts))
        writings.append(Writing(path=path, kind="comment", texts=texts, pointers=pointers, starts=starts))
    return tuple(writings)


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
    # As a path says it too, but that is an object that takes ten times as long to make.
    if "/" not in path:
        return []
    _, *folders, name = path.split("/")
    point = name.rfind(".")
    return [*folders, name[:point] if 0 < point < len(name) - 1 else name]


def _collect(value: Any, places: TextPlaces, at: str, found: _Texts, once: Once) -> None:
    """Add the texts in a value; as deep as the schema knows, so at most as deep as the parser lets a file be."""
    if isinstance(value, str):
        if places.kind is not None:
            _add(places.kind, once.text(value), at, found)
    elif isinstance(value, dict):
        _collect_keys(value, places, at, found, once)
    elif isinstance(value, list) and places.items is not None:
        below = once.below(at)
        for index, each in enumerate(value):
            _collect(each, places.items, below[index], found, once)


def _collect_keys(value: dict[str, Any], places: TextPlaces, at: str, found: _Texts, once: Once) -> None:
    below = once.below(at)
    for key, inner in places.keys.items():
        each = value.get(key)
        if type(each) is str:
            # Most values are texts: a call for each takes longer than all the rest.
            if inner.kind is not None:
                _add(inner.kind, once.text(each), below[key], found)
        elif each is not None:
            _collect(each, inner, below[key], found, once)
    if places.others is not None:
        for key in value.keys() - places.keys.keys():
            pointer = once.text(at + show((key,)))
            _add("key", once.text(key), pointer, found)
            _collect(value[key], places.others, pointer, found, once)


def _add(kind: TextKind, text: str, at: str, found: _Texts) -> None:
    lists = found.get(kind)
    if lists is None:
        lists = found[kind] = ([], [])
    lists[0].append(text)
    lists[1].append(at)
