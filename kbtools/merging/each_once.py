"""Each thing once, and names that are still free: what every part of a merged draft needs."""

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


def free_id(identity: str, taken: Iterable[str]) -> str:
    """The id, with a number if it is taken."""
    known = set(taken)
    return next(
        name for number in range(1, 100) if (name := identity if number == 1 else f"{identity}-{number}") not in known
    )
