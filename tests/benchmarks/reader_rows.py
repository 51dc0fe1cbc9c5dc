"""What a reader waits for on a slow telephone."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

from .process import python
from .table import QUICK, Row, Sizes, base

MOST_OF_A_FAULT = 95
"""kB with gzip that the page of a fault fetches by itself, its pictures among them."""


def reader(folder: Path, sizes: Sizes) -> Iterator[Row]:
    """Seconds of waiting, and what a page weighs."""
    quick = ["--quick", "--kb", str(base(folder, sizes.reading))] if sizes == QUICK else []
    for line in python("-m", "tests.benchmarks.reader", *quick).output.splitlines():
        figures = json.loads(line)
        name = f"reader: {figures['page']}"
        weights = {
            kind: f"{kind} {raw / 1000:.1f} → {sent / 1000:.1f}" for kind, (raw, sent, _) in figures["bytes"].items()
        }
        _, weight, answers = figures["bytes"]["all"]
        yield Row(
            what=f"{name}, kB with gzip",
            value=weight / 1000,
            budget=MOST_OF_A_FAULT if figures["page"].startswith("fault") else None,
            note=f"{answers} answers; {', '.join(weights.values())}",
        )
        for what, seconds in figures["times"].items():
            yield Row(what=f"{name}, {what}", value=seconds)
