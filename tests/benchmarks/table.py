"""What the parts of the table have in common: its rows, the sizes, the bases that are measured."""

from __future__ import annotations

import json
import statistics
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from tests.support.synthetic import write_base

from .process import python

CASES_PER_FAULT = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """Numbers of faults."""

    reading: int
    growth: tuple[int, int]
    builds: tuple[int, ...]
    edited: tuple[int, ...]
    """Of which one is edited, and the site built again."""
    served: int
    every: int
    """Of which every pair is compared."""
    by_hand: int | None
    """Pages that are written by hand at most; None: as many as the site has."""
    rounds: int
    """Interleaved runs, of which the median counts; a build is done once."""


FULL = Sizes(
    reading=1000,
    growth=(1000, 10000),
    builds=(1000, 5000),
    edited=(1000, 5000),
    served=1000,
    every=2000,
    by_hand=None,
    rounds=3,
)
# So small that the figures say nothing: it shows that every part still runs.
QUICK = Sizes(reading=4, growth=(4, 8), builds=(4,), edited=(4,), served=4, every=4, by_hand=5, rounds=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the table."""

    what: str
    value: float
    budget: float | None = None
    """At most so much; None: only told."""
    note: str = ""

    def text(self) -> str:
        budget = "" if self.budget is None else f"≤ {self.budget:g}"
        verdict = "" if self.budget is None else "ok" if self.value <= self.budget else "OVER"
        return f"{self.what:<58} {self.value:>8.2f}  {budget:<7} {verdict:<5} {self.note}".rstrip()


def base(folder: Path, faults: int) -> Path:
    """A base of that size, written when it is first asked for."""
    kb = folder / f"kb-{faults}" / "kb"
    if not kb.exists():
        write_base(kb, faults=faults, cases=CASES_PER_FAULT * faults)
    return kb


def steps(kind: str, kb: Path) -> dict[str, float]:
    """Seconds by step, of `steps.py` in a process of its own."""
    seconds: dict[str, float] = json.loads(python("-m", "tests.benchmarks.steps", kind, str(kb)).output)
    return seconds


def interleaved(rounds: int, *works: Callable[[], dict[str, float]]) -> list[dict[str, float]]:
    """Run the works in turn, so that a busy moment of the machine hits them alike; medians by step."""
    runs: list[list[dict[str, float]]] = [[] for _ in works]
    for _ in range(rounds):
        for place, work in enumerate(works):
            runs[place].append(work())
    return [{step: statistics.median(run[step] for run in each) for step in each[0]} for each in runs]
