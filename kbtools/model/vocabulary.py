"""The vocabulary that comes with the programs, as its files say it and before anything is made of it."""

from __future__ import annotations

from dataclasses import dataclass

Group = tuple[str, ...]
"""Words and names of one group, in the order of their row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tables:
    """What the files of `kbtools/vocabulary/data/` say; without it only the club's own words are known."""

    alike: tuple[Group, ...] = ()
    """Groups of words and names whose difference never tells two faults apart."""
    opposites: tuple[str, ...] = ()
    """The lines of `opposites.txt`, which `kbtools.vocabulary.axes` reads."""


NO_TABLES = Tables()
"""For whoever compares nothing."""
