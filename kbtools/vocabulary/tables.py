"""Words of like meaning, whatever the club; a club's own `words.yml` comes on top.

Each table is a text file in `data/`: a line is a group of words and names, set off by commas, whose difference never
tells two faults apart. A name may have several words, and a word may stand in several groups; `not` stands for every
negation. To add a group, add a line. All of it is common usage, no source. An edge reads the files (`tables_from`) and
hands them on with the knowledge base.
"""

from __future__ import annotations

import functools
from collections.abc import Mapping
from typing import Final

from kbtools.model.vocabulary import Group, Tables
from kbtools.vocabulary.stems import Equals, Kin

NAMES: Final = ("everyday", "turns", "slang", "workshop", "parts", "electrics", "engine", "chassis")
"""The tables of words of like meaning: everyday words, turns of speech, talk of the workshop, names of parts, and three
by subject. Each is a file `data/<name>.txt`; `data/opposites.txt` stands beside them."""


def tables_from(texts: Mapping[str, str]) -> Tables:
    """The tables, from the texts of their files by name.

    Raises:
        KeyError: a table is not there.
    """
    return Tables(
        alike=tuple(group(line) for name in NAMES for line in texts[name].splitlines()),
        opposites=tuple(texts["opposites"].splitlines()),
    )


def group(line: str) -> Group:
    """The words and names of a line."""
    return tuple(word.strip() for word in line.split(","))


@functools.lru_cache(maxsize=2)
def kin_of(tables: Tables, own: tuple[Group, ...]) -> tuple[Equals, Kin]:
    """A club's equal words, and all words of like meaning; kept, since the tables stay what they are."""
    equals = Equals(own)
    return equals, Kin(tables.alike, equals)
