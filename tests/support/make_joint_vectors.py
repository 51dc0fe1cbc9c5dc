"""Writes the vectors of plans for several faults, for both languages: `python -m tests.support.make_joint_vectors`.

Every expected value comes from `joint_brute.py`, which lists every decision tree and shares no code with the programs;
the intervals are those of `scipy.stats.beta.ppf`.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from typing import Any

from tests.support.joint_brute import JointBrute
from tests.support.joint_instances import numbered
from tests.support.places import VECTORS
from tests.support.plan_brute import TooManyError

Record = dict[str, Any]
FILE = VECTORS / "joint.json"
PLANS = 120


def joint_vectors(count: int = PLANS) -> Iterator[Record]:
    """Instances with the best of all trees; of those with one step only, one in six."""
    number = simple = found = 0
    while found < count:
        asked = numbered(number)
        number += 1
        brute = JointBrute(asked)
        try:
            expected = brute.solve()
        except TooManyError:
            continue
        if len(expected["steps"]) < 2:
            simple += 1
            if simple > PLANS // 6:
                continue
        found += 1
        yield {"number": number - 1, "asked": asked, "expected": {**expected, **brute.told()}}


def text() -> str:
    """One vector a line, so that a change shows where it is."""
    rows = ",\n".join(json.dumps(each, separators=(",", ":")) for each in joint_vectors())
    return f"[\n{rows}\n]\n"


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8")
    sys.stdout.write(f"{FILE}: {FILE.stat().st_size / 1000:.0f} kB\n")
