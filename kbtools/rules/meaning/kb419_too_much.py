"""KB419: entry that is too long."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import MOST_JOBS, MOST_ROWS, Fault
from kbtools.rules.rule import Breach, Rule, Sample

_HINT = "Split this entry, by what the rider notices or by the machines that it concerns."


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Entries of more causes, checks or access jobs than one can hold; the place is the first one too many."""
    for fault in faults(base):
        for name, rows in (("causes", fault.causes), ("checks", fault.checks)):
            if len(rows) > MOST_ROWS:
                message = f"The entry has {len(rows)} {name}; {MOST_ROWS} are the most."
                yield Breach(path=fault.path, pointer=rows[MOST_ROWS].at, message=message, hint=_HINT)
        jobs: dict[str, str] = {}
        for job, pointer in _jobs(fault):
            jobs.setdefault(job, pointer)
        if len(jobs) > MOST_JOBS:
            message = f"The entry takes {len(jobs)} different access jobs; {MOST_JOBS} are the most."
            yield Breach(path=fault.path, pointer=list(jobs.values())[MOST_JOBS], message=message, hint=_HINT)


def _jobs(fault: Fault) -> Iterator[tuple[str, str]]:
    for each in fault.work:
        for index, job in enumerate(each.access):
            yield job, f"{each.at}/access/{index}"


RULE = Rule(
    code="KB419",
    title="Entry that is too long",
    severity="error",
    what="An entry with more than 12 causes, more than 12 checks, or more than 4 different access jobs.",
    why="Nobody finds a way through it in a garage, and a best order of checks can no longer be computed.",
    sample=Sample(
        path="faults/charging/battery-flat.yml",
        instead_of="draft: true\n",
        bad="draft: true\ncauses: [" + ", ".join(f"{{id: cause-{number}}}" for number in range(1, 14)) + "]\n",
        good="draft: true\ncauses: [{id: cause-1}, {id: cause-2}]\n",
    ),
    alone="any day",
    check=check,
)
