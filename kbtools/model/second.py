"""What the pure rooms see of a second process; an edge hands one in, or `by_itself`, which does without."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import AbstractContextManager, contextmanager
from typing import Protocol, TypeVar

T = TypeVar("T")


class Second(Protocol):
    """Begins with a work, and gives what waits for its result."""

    def __call__(self, work: Callable[[], T], /) -> AbstractContextManager[Callable[[], T]]:
        """The work must do without a memory, and its result must be one that pickle knows."""


class Stream(Protocol):
    """Begins with a work that gives one thing after the other, and gives these in their order.

    They may end before the work has ended: who asks does the rest himself.
    """

    def __call__(self, work: Callable[[], Iterable[T]], /) -> AbstractContextManager[Iterator[T]]:
        """As of `Second`."""


@contextmanager
def by_itself(work: Callable[[], T], /) -> Iterator[Callable[[], T]]:
    """No second process: the work is done where its result is asked for."""
    yield work


@contextmanager
def no_stream(_: Callable[[], Iterable[T]], /) -> Iterator[Iterator[T]]:
    """No second process: it ends at once."""
    yield iter(())
