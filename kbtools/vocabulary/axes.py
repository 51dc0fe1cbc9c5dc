"""What excludes each other: front and rear, too high and too low, will not start and will not stop.

The table is `tables/opposites.txt`: a line is an axis, its name and its sides set off by `|`; a side is a list of words
and phrases as people write them, set off by commas, and `not` stands for every negation. An axis may have more than two
sides (the gears). A name that begins with `@` says that the sides are places. Phrases behind `~` name no side of the
axis though a word of them would: "high revs" is not too high; those of the line `~` name none of any. To add an axis,
add a line. The words are common trade usage, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from kbtools.vocabulary.tables import lines


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """Sides that exclude each other."""

    name: str
    """For messages."""
    sides: tuple[tuple[str, ...], ...]
    """Words and phrases of each side."""
    neither: tuple[str, ...]
    """Phrases that name no side, though a word of them would."""
    place: bool
    """Whether its sides say where or which, and not how: "no front brake" is about the front all the same."""


def _phrases(text: str) -> tuple[str, ...]:
    return tuple(each.strip() for each in text.split(","))


def _axis(line: str) -> Axis:
    told, _, neither = line.partition("~")
    name, *rest = told.split("|")
    sides = tuple(_phrases(side) for side in rest if side.strip())
    return Axis(
        name=name.strip().removeprefix("@"),
        sides=sides,
        place=name.startswith("@") or len(sides) > 2,
        neither=_phrases(neither) if neither.strip() else (),
    )


AXES: Final = tuple(_axis(line) for line in lines("opposites") if not line.startswith("~"))
"""Every axis."""

NEITHER: Final = tuple(each for line in lines("opposites") if line.startswith("~") for each in _phrases(line[1:]))
"""Phrases that name no side of any axis."""
