"""How long plans for several faults take, and how good those are that are too large to be searched whole.

`python -m tests.benchmarks.joint_plans [--quick]` prints figures as JSON. Faults are of a size, each cause with a check
of its own and some that overlap; they share access jobs, a check, and some a cause.
"""

from __future__ import annotations

import json
import random
import statistics
import sys
import time
from typing import Any

from kbtools.checkplan import Owner, Plan, plan_of
from kbtools.checkplan.beside import Beside, Word
from kbtools.checkplan.joint import Part, joint_of
from tests.benchmarks.plans import record
from tests.support.plan_problems import problem_from

Record = dict[str, Any]
FAULTS, SIZE, SEEDS = 3, 5, 200
GROWTH = ((2, 3), (2, 4), (2, 5), (3, 3), (3, 4), (3, 5), (4, 3), (4, 4), (8, 2))
"""Faults, and causes and checks of each."""
LARGE = (5, 5)
"""So large that no plan of it is the proven best."""


def records(faults: int, size: int, seed: int) -> list[Record]:
    """Parts, as `core/joint.js` takes them."""
    chance = random.Random(f"joint {faults} {size} {seed}")
    parts = []
    first = record(size, seed)
    for place in range(faults):
        made = record(size, 1000 * (place + 1) + seed)
        problem = {**first, **{name: made[name] for name in ("fixes", "checks")}, "fault": f"fault-{place}"}
        problem["evidence"] = {**first["evidence"], "causes": made["evidence"]["causes"]}
        same = {"cause-1": "one"} if chance.random() < 0.3 else {}
        shared = {"check-1": "shared-1"} if chance.random() < 0.3 else {}
        for check in problem["checks"]:
            if check["id"] in shared:
                # What a check takes is the same wherever it is used; sides differ between a look and a reading.
                check.update({"outcomes": {"bad": ["cause-1"]}, "good": None})
        beside = {"advice": {"level": None, "why": None, "from": f"fault:fault-{place}"}, "causes": {}, "free": []}
        parts.append({"problem": problem, "beside": beside, "same": same, "shared": shared, "cases": None})
    return parts


def parts_of(rows: list[Record]) -> list[Part]:
    return [
        Part(
            problem=problem_from(row["problem"]),
            beside=Beside(word=Word(level=None, why=None, source=""), causes={}, free=()),
            same=row["same"],
            shared=row["shared"],
            cases=row["cases"],
        )
        for row in rows
    ]


def timed(faults: int, size: int, seed: int) -> tuple[float, Plan]:
    """Seconds of the processor for all of it: putting together, search, baselines, tree."""
    parts = parts_of(records(faults, size, seed))
    started = time.process_time()
    plan = plan_of(joint_of(parts, None, 0).problem, Owner())
    return time.process_time() - started, plan


def main() -> None:
    seeds = 3 if "--quick" in sys.argv else SEEDS
    runs = [timed(FAULTS, SIZE, seed) for seed in range(seeds)]
    took = {
        "plan for 3 faults of 5, median": statistics.median(seconds for seconds, _ in runs),
        "plan for 3 faults of 5, worst": max(seconds for seconds, _ in runs),
        "plan for 3 faults of 5, part that is not exact": statistics.mean(
            plan.at_least is not None for _, plan in runs
        ),
    }
    print(json.dumps(took))


if __name__ == "__main__":
    main()
