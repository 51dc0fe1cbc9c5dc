"""A check that several faults use, once: `checks.yml`."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from kbtools.model.check import Check
from kbtools.model.fault import Source

SHARED_PATH: Final = "checks.yml"
"""Where they stand, relative to the knowledge base."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedCheck:
    """A shared check as it is written: it points to nothing, since what its results mean each fault says."""

    check: Check
    """All that a fault's check has."""
    sources: tuple[Source, ...]
    """Where its figures come from."""
    look_first_for: tuple[str, ...]
    """Ids of the systems in which it is looked at first, in their children too, whatever the fault."""
    whole: bool
    """Whether all of its row could be read, and nothing is missing that it must say."""

    @property
    def id(self) -> str:
        """By which faults use it; unique among the shared checks."""
        return self.check.id

    @property
    def at(self) -> str:
        """JSON pointer of its row."""
        return self.check.at
