"""The texts of a file by their kinds, as rules look at them."""

from __future__ import annotations

import functools
from collections.abc import Iterable

from kbtools.model.writing import TextKind, Writing
from kbtools.reading.places import show
from kbtools.reading.shape import Text

_KINDS: tuple[TextKind, ...] = ("words", "link", "key")

# Entries have the same keys, so most pointers are those of other entries: one string serves all.
_shown = functools.lru_cache(maxsize=10_000)(show)


def file_writing(path: str, texts: Iterable[Text]) -> tuple[Writing, ...]:
    """The texts of a YAML file."""
    by_kind: dict[TextKind, tuple[list[str], list[str]]] = {}
    for kind, pointer, text in texts:
        found, pointers = by_kind.setdefault(kind, ([], []))
        found.append(text)
        pointers.append(_shown(pointer))
    return tuple(
        Writing(path=path, kind=kind, texts=tuple(by_kind[kind][0]), pointers=tuple(by_kind[kind][1]))
        for kind in _KINDS
        if kind in by_kind
    )


def page_writing(path: str, text: str) -> tuple[Writing, ...]:
    """The text of a hand-written page."""
    return (Writing(path=path, kind="page", texts=(text,), pointers=("",)),)
