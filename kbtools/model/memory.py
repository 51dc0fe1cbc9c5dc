"""What the pure rooms see of a store that lasts from run to run; an edge hands one in, or None."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Protocol, TypeVar

T = TypeVar("T")


class Memory(Protocol):
    """Remembers what was worked out, by the name of the work and all that it was worked out from.

    The programs themselves need not be named: another version of them remembers nothing of this one.
    """

    def worked_out(self, work: str, asked: bytes) -> Any:
        """JSON, as it was kept; None where it was not."""

    def keep_worked_out(self, work: str, asked: bytes, found: Any) -> None:
        """Keep what JSON can hold."""


def shaped(kept: Any, read: Callable[[Any], T]) -> T | None:
    """What a memory gave, read into a value; None where it gave nothing, or something of another shape.

    Args:
        kept: what the memory gave.
        read: raises what Python raises of a value of another shape, or a ValueError of its own.
    """
    if kept is None:
        return None
    try:
        return read(kept)
    except (ArithmeticError, AttributeError, LookupError, TypeError, ValueError):
        return None
