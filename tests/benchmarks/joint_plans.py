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
FEW_STATES = 50
"""So few that most plans are not searched whole, and the best one is still known to compare with."""


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


def fallback(seed: int) -> tuple[float, float]:
    """How far a plan that is not searched whole is above its bound, and above the best one: parts of the latter."""
    problem = joint_of(parts_of(records(FAULTS, SIZE, seed)), None, 0).problem
    best, good = plan_of(problem, Owner()), plan_of(problem, Owner(), FEW_STATES)
    cost = good.expected_cost or 0.0
    least = cost if good.at_least is None else good.at_least
    return cost / least - 1, cost / (best.expected_cost or 1.0) - 1


def figures(seeds: int) -> dict[str, float]:
    """Seconds of the processor; parts where that is said."""
    runs = [timed(FAULTS, SIZE, seed) for seed in range(seeds)]
    found = {
        "joint plan of 3 × 5, median": statistics.median(seconds for seconds, _ in runs),
        "joint plan of 3 × 5, worst": max(seconds for seconds, _ in runs),
        "joint plan of 3 × 5, part not exact": statistics.mean(plan.at_least is not None for _, plan in runs),
    }
    for faults, size in GROWTH:
        some = [timed(faults, size, seed)[0] for seed in range(max(1, seeds // 10))]
        found[f"joint plan of {faults} × {size}, median"] = statistics.median(some)
        found[f"joint plan of {faults} × {size}, worst"] = max(some)
    gaps = [fallback(seed) for seed in range(seeds)]
    for place, what in enumerate(("bound", "best")):
        own = sorted(each[place] for each in gaps)
        found[f"fallback above the {what}, median part"] = statistics.median(own)
        found[f"fallback above the {what}, 95th of 100"] = own[int(0.95 * (len(own) - 1))]
        found[f"fallback above the {what}, worst part"] = own[-1]
    return found


def main() -> None:
    seeds = 2 if "--quick" in sys.argv else SEEDS
    if "--records" in sys.argv:
        # For the same in the browser's language: see `joint_plans.mjs`.
        print(json.dumps([records(FAULTS, SIZE, seed) for seed in range(seeds)]))
        return
    print(json.dumps(figures(seeds)))


if __name__ == "__main__":
    main()
