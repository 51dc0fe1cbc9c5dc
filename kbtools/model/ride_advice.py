"""May it be ridden: how strict the advice is, and which of several is the strictest."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from kbtools.model.money import Distance, Speed

RideLevel = Literal["do-not-ride", "ride-to-workshop", "ride-with-care", "no-restriction"]

RIDE_LEVELS: tuple[RideLevel, ...] = ("do-not-ride", "ride-to-workshop", "ride-with-care", "no-restriction")
"""From the strictest to the mildest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RideAdvice:
    """May I ride it."""

    level: RideLevel
    """How strict."""
    why: str | None
    """The reason, Markdown."""
    stop_if: tuple[str, ...]
    """Signs at which to stop at once, Markdown."""
    at: str
    """JSON pointer of the mapping."""
    max_speed: Speed | None = None
    """Not faster than this."""
    max_distance: Distance | None = None
    """Not farther than this."""


def strictest(levels: list[RideLevel]) -> RideLevel | None:
    """The strictest of several ride advices; None, "not known", of none."""
    return min(levels, key=RIDE_LEVELS.index, default=None)
