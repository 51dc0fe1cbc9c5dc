"""How long plans take: problems of a size, each cause with a check of its own and some that overlap.

`python -m tests.benchmarks.plans [--quick]` prints seconds of the processor as JSON.
"""

from __future__ import annotations

import json
import random
import statistics
import sys
import time
from typing import Any

from kbtools.checkplan import Owner, plan_of
from kbtools.checkplan.problem import Problem
from kbtools.checkplan.search import Search
from kbtools.checkplan.table import start_of, table_of
from tests.support.plan_instances import JOBS, TOOLS, Maker
from tests.support.plan_problems import problem_from

LARGE = 12
"""Causes, and checks, at most, of one entry."""


def record(size: int, seed: int) -> dict[str, Any]:
    """A problem of so many causes and checks; one owner in five lacks what a check takes, as in the demo."""
    chance = random.Random(f"{size} {seed}")
    maker = Maker(chance, round_numbers=False)
    causes = [f"cause-{number}" for number in range(1, size + 1)]
    jobs = list(JOBS)
    problem, _ = maker.instance(1, 1)
    problem["evidence"] = maker.evidence(causes)
    for cause in problem["evidence"]["causes"]:
        cause["applies"] = None
    problem["access"] = [{**maker.job(job, jobs[:place]), "skill": 0} for place, job in enumerate(jobs)]
    problem["tools"] = TOOLS
    problem["fixes"] = [maker.fix(cause, jobs) for cause in causes]
    problem["checks"] = [check(maker, place, causes, jobs) for place in range(size)]
    return problem


def check(maker: Maker, place: int, causes: list[str], jobs: list[str]) -> dict[str, Any]:
    made = maker.check(place + 1, causes, jobs)
    pointed = [causes[place], *maker.chance.sample(causes, maker.chance.choice((0, 0, 1, 2)))]
    made["outcomes"] = {side: [] for side in made["outcomes"]}
    for cause in dict.fromkeys(pointed):
        made["outcomes"][maker.chance.choice(list(made["outcomes"]))].append(cause)
    return {**made, "access": made["access"][:1]}


def plan(problem: Problem) -> None:
    """All of it: shares with intervals, the search, both baselines, the tree."""
    plan_of(problem, Owner())


def search(problem: Problem) -> None:
    """The search alone."""
    found = Search(table_of(problem, Owner()))
    found.solved(*start_of(found.table, {}))


def main() -> None:
    part = 0.02 if "--quick" in sys.argv else 1
    small = [problem_from(record(5, seed)) for seed in range(int(1000 * part))]
    large = [problem_from(record(LARGE, seed)) for seed in range(max(1, int(30 * part)))]
    took = {}
    for name, work in (("plan", plan), ("search", search)):
        started = time.process_time()
        for problem in small:
            work(problem)
        took[f"{name}: 1,000 of 5 causes"] = (time.process_time() - started) / part
    times = []
    for problem in large:
        started = time.process_time()
        plan(problem)
        times.append(time.process_time() - started)
    took["plan of 12 causes, median"] = statistics.median(times)
    took["plan of 12 causes, largest"] = max(times)
    print(json.dumps(took))


if __name__ == "__main__":
    main()
