"""What a report may know beside the findings themselves."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from kbtools.rules.rule import Rule


def _no_lines(_path: str) -> Sequence[str]:
    return ()


def _no_rules() -> Sequence[Rule]:
    return ()


def _unknown() -> None:
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class ReportContext:
    """Where a report goes, and what it can look up. Nothing in it is read here: the doors read, and hand in."""

    lines: Callable[[str], Sequence[str]] = _no_lines
    """From a finding's path to the lines of that file, without their ends; none where it cannot be shown."""
    colour: bool = False
    """Whether the reader's terminal shows colours."""
    width: int = 100
    """Columns that a quoted line may take, its number included; a longer one is cut around the place."""
    accepted: int = 0
    """How many more findings there are that the club accepts."""
    looked_at: Sequence[str] = ()
    """The files that were looked at, relative to the knowledge base; empty: nobody is told how many."""
    rules: Callable[[], Sequence[Rule]] = _no_rules
    """Gives every rule, by code. Few formats ask, and loading them takes a while."""
    rule_pages: Callable[[], str | None] = _unknown
    """Gives the absolute address of the rule reference, ending in a slash; None: unknown. Few formats ask."""


PLAIN = ReportContext()
"""No colours, no quoted lines."""
