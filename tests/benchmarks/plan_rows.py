"""Plans, in seconds and not as a ratio: a page that replans has to keep up with a hand."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

from .process import python
from .table import QUICK, Row, Sizes


def plan(_folder: Path, sizes: Sizes) -> Iterator[Row]:
    """Plans for one fault, in seconds."""
    quick = ["--quick"] if sizes == QUICK else []
    seconds: dict[str, float] = json.loads(python("-m", "tests.benchmarks.plans", *quick).output)
    budgets = {"plan: 1,000 of 5 causes": 0.2, "plan of 12 causes, median": 0.05}
    for what, value in seconds.items():
        yield Row(what=f"{what} (s)", value=value, budget=budgets.get(what))


def joint(_folder: Path, sizes: Sizes) -> Iterator[Row]:
    """Plans for several faults, in seconds; and how far those that are not searched whole may be from the best."""
    quick = ["--quick"] if sizes == QUICK else []
    seconds: dict[str, float] = json.loads(python("-m", "tests.benchmarks.joint_plans", *quick).output)
    budgets = {"joint plan of 3 × 5, median": 0.1, "joint plan of 3 × 5, worst": 1.0}
    for what, value in seconds.items():
        yield Row(what=what, value=value, budget=budgets.get(what))
