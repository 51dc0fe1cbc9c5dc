"""What an entry has room for: rows that fit, and the reasons for which others are left out."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from collections.abc import Set as AbstractSet
from typing import TypeVar

from kbtools.merging.rows import known_by
from kbtools.model.check import Check
from kbtools.model.fault import MOST_JOBS, MOST_ROWS, Cause, Source

WorkT = TypeVar("WorkT", Cause, Check)
RowT = TypeVar("RowT", Check, Source)


class Room:
    """Room for the rows of one draft, the first ones first."""

    def __init__(self) -> None:
        self.why: dict[Hashable, str] = {}
        """Why rows are left out, by what they are known by."""
        self._jobs: set[str] = set()

    def for_work(self, rows: Iterable[WorkT]) -> tuple[WorkT, ...]:
        """As many causes, or checks, as an entry may have; access jobs are counted over all work of the entry."""
        kept: list[WorkT] = []
        for row in rows:
            jobs = self._jobs.union(_access(row))
            if len(kept) == MOST_ROWS:
                self.why[known_by(row)] = f"an entry has {MOST_ROWS} at most"
            elif len(jobs) > MOST_JOBS:
                self.why[known_by(row)] = f"an entry takes {MOST_JOBS} access jobs at most"
            else:
                self._jobs = jobs
                kept.append(row)
        return tuple(kept)

    def narrowed(
        self,
        rows: Iterable[RowT],
        narrow: Callable[[RowT, AbstractSet[str]], RowT | None],
        causes: AbstractSet[str],
    ) -> tuple[RowT, ...]:
        """The rows without causes that were left out, and without those that would then mean something else.

        Args:
            rows: checks or sources.
            narrow: a row with these causes alone, None where it names no other.
            causes: ids of the causes that are there.
        """
        kept: list[RowT] = []
        for row in rows:
            rest = narrow(row, causes)
            if rest is None:
                self.why[known_by(row)] = "none of the causes that it names is there"
            else:
                kept.append(rest)
        return tuple(kept)


def _access(row: Cause | Check) -> Iterable[str]:
    if isinstance(row, Check):
        return row.access
    return () if row.fix is None else row.fix.access
