"""What excludes each other: front and rear, too high and too low, will not start and will not stop.

The table is `data/opposites.txt`: a line is an axis, its name and its sides set off by `|`; a side is a list of words
and phrases as people write them, set off by commas, and `not` stands for every negation. An axis may have more than two
sides (the gears). A name that begins with `@` says that the sides are places. Phrases behind `~` name no side of the
axis though a word of them would: "high revs" is not too high; those of the line `~` name none of any. To add an axis,
add a line. The words are common trade usage, no source.
"""

from __future__ import annotations

import functools
from dataclasses import dataclass

from kbtools.model.vocabulary import Tables


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """Sides that exclude each other."""

    name: str
    """Which it is; it begins with `@` where the sides are places, so that a stand tells by itself."""
    sides: tuple[tuple[str, ...], ...]
    """Words and phrases of each side."""
    neither: tuple[str, ...]
    """Phrases that name no side, though a word of them would."""

    @property
    def place(self) -> bool:
        """Whether its sides say where or which, and not how: "no front brake" is about the front all the same."""
        return is_place(self.name)


def _phrases(text: str) -> tuple[str, ...]:
    return tuple(each.strip() for each in text.split(","))


def _axis(line: str) -> Axis:
    told, _, neither = line.partition("~")
    name, *rest = told.split("|")
    sides = tuple(_phrases(side) for side in rest if side.strip())
    return Axis(
        name=f"@{name.strip().removeprefix('@')}" if name.startswith("@") or len(sides) > 2 else name.strip(),
        sides=sides,
        neither=_phrases(neither) if neither.strip() else (),
    )


def is_place(name: str) -> bool:
    """Whether the sides of an axis of this name say where or which."""
    return name.startswith("@")


@functools.lru_cache(maxsize=2)
def axes(tables: Tables) -> tuple[Axis, ...]:
    """Every axis."""
    return tuple(_axis(line) for line in tables.opposites if not line.startswith("~"))


def neither(tables: Tables) -> tuple[str, ...]:
    """Phrases that name no side of any axis."""
    return tuple(each for line in tables.opposites if line.startswith("~") for each in _phrases(line[1:]))
