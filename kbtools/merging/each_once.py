"""Each thing of a list once."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from typing import TypeVar

T = TypeVar("T")


def each_once(values: Iterable[T], key: Callable[[T], Hashable] = lambda value: value) -> tuple[T, ...]:
    """The values in order, each once; of those with one key the first."""
    kept: dict[Hashable, T] = {}
    for value in values:
        kept.setdefault(key(value), value)
    return tuple(kept.values())
