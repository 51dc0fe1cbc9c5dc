"""From a place in a file that was written here to what stands there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from kbtools.diagnostics import Mark
from kbtools.reading.places import Document


def pointer_at(document: Document, mark: Mark, data: Any) -> str:
    """The JSON pointer of what stands at a place of a file that was written here; of what lies inside, the nearest."""
    best, found = (0, 0), ""
    for pointer in _pointers(data, ""):
        for place in (document.key(pointer), document.value(pointer)):
            at = (place.line, place.column)
            if best <= at <= (mark.line, mark.column):
                best, found = at, pointer
    return found


def _pointers(data: Any, at: str) -> Iterator[str]:
    rows = data.items() if isinstance(data, Mapping) else enumerate(data) if isinstance(data, list | tuple) else ()
    for key, value in rows:
        pointer = f"{at}/{str(key).replace('~', '~0').replace('/', '~1')}"
        yield pointer
        yield from _pointers(value, pointer)
