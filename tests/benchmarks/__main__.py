"""One command that prints a table of ratios: `python -m tests.benchmarks [--quick] [--only PART …]`."""

from __future__ import annotations

import argparse
import os
import tempfile
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

import pytest

from tests.support.compiled_once import compiled_once

from .builds import build, whole
from .edited import edited, served
from .plan_rows import joint, plan
from .process import all_in_this_process
from .reader_rows import reader
from .reading import alike, cache, growth, reading
from .table import FULL, QUICK, Row, Sizes

PARTS: Mapping[str, Callable[[Path, Sizes], Iterator[Row]]] = {
    "reading": reading,
    "cache": cache,
    "growth": growth,
    "similar": alike,
    "build": build,
    "edited": edited,
    "serve": served,
    "plan": plan,
    "joint": joint,
    "reader": reader,
    "whole": whole,
}
BY_NAME_ONLY = {"reader", "whole"}
"""What takes too long to be run unasked, or a browser."""


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--quick", action="store_true", help="tiny sizes: whether everything runs")
    parser.add_argument("--only", nargs="+", choices=PARTS, metavar="PART", help=f"of the table: {', '.join(PARTS)}")
    chosen = parser.parse_args()
    sizes = FULL
    if chosen.quick:
        sizes = QUICK
        all_in_this_process()
        compiled_once(pytest.MonkeyPatch())
        print("Sizes too small for the figures to say anything; every part ran if the plan's are there.")
    print(f"{'ratio':<58} {'measured':>8}  {'budget':<7}")
    with tempfile.TemporaryDirectory(prefix="kbtools-benchmark-") as folder:
        for name in chosen.only or [each for each in PARTS if each not in BY_NAME_ONLY]:
            began = _processor()
            for row in PARTS[name](Path(folder), sizes):
                print(row.text(), flush=True)
            print(f"  {name}: {_processor() - began:.1f} s of the processor", flush=True)


def _processor() -> float:
    """Seconds that this process and all that it has started and waited for have used."""
    used = os.times()
    return used.user + used.system + used.children_user + used.children_system


if __name__ == "__main__":
    main()
