"""Words of like meaning, whatever the club; a club's own `words.yml` comes on top.

Each table is a text file beside this one: a line is a group of words and names, set off by commas, whose difference
never tells two faults apart. A name may have several words, and a word may stand in several groups; `not` stands for
every negation. To add a group, add a line. All of it is common usage, no source.
"""

from __future__ import annotations

import functools
import pkgutil
from typing import Final

from kbtools.vocabulary.stems import Equals, Kin

NAMES: Final = ("everyday", "turns", "slang", "workshop", "parts", "electrics", "engine", "chassis")
"""All tables: everyday words, turns of speech, talk of the workshop, names of parts, and three by subject."""

Group = tuple[str, ...]


def lines(name: str) -> list[str]:
    """The lines of a table; the files are a part of the program."""
    return (pkgutil.get_data(__name__, f"data/{name}.txt") or b"").decode().splitlines()


@functools.cache
def groups(*names: str) -> tuple[Group, ...]:
    """The groups of the tables."""
    return tuple(tuple(word.strip() for word in line.split(",")) for name in names for line in lines(name))


@functools.lru_cache(maxsize=2)
def vocabulary(own: tuple[Group, ...]) -> tuple[Equals, Kin]:
    """A club's equal words, and all words of like meaning; kept, since the tables stay what they are."""
    equals = Equals(own)
    return equals, Kin(groups(*NAMES), equals)
