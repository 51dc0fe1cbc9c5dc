"""How alike two values of a field are: every function is symmetric, within 0 to 1, and 1 for the same value."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from typing import TypeVar

from kbtools.similarity.assignment import best_total

V = TypeVar("V")


def sets(alike: Callable[[V, V], float], *, part: float) -> Callable[[Sequence[V], Sequence[V]], float]:
    """Likeness of two sets of members by their best assignment to each other.

    Args:
        alike: how alike two members are.
        part: between 0, measured by all members of both, and 1, measured by the smaller set only.
    """

    def likeness(left: Sequence[V], right: Sequence[V]) -> float:
        total = best_total([[alike(one, other) for other in right] for one in left])
        return (1 - part) * 2 * total / (len(left) + len(right)) + part * total / min(len(left), len(right))

    return likeness


def same(left: object, right: object) -> float:
    """1 for equal values."""
    return 1.0 if left == right else 0.0


def days(half: float) -> Callable[[dt.date, dt.date], float]:
    """Likeness of two dates that falls to one half at so many days apart."""
    return lambda left, right: 0.5 ** (abs((left - right).days) / half)


def distance(half: float) -> Callable[[float, float], float]:
    """Likeness of two numbers that falls to one half at so much apart."""
    return lambda left, right: 0.5 ** (abs(left - right) / half)
