"""KB704: no second pair of eyes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.reviews import read_twice
from kbtools.index.safety import critical_faults
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Entries with safety-critical work that one reviewer alone has read."""
    for fault in critical_faults(base):
        reviewed = fault.reviewed
        if reviewed is None or not fault.intact(f"{reviewed.at}/second"):
            continue
        if reviewed.second is None:
            message = "Nobody but the reviewer has read this entry, and it is about a safety-critical system."
            pointer = reviewed.at
        elif not read_twice(fault):
            message = "The second reviewer is the first one."
            pointer = f"{reviewed.at}/second"
        else:
            continue
        hint = "Let somebody else read it, best a mechanic, and name the role: `second: mechanic-1`."
        yield Breach(path=fault.path, pointer=pointer, message=message, hint=hint)


_SAFE = (
    "title: Brake lever comes back\nsystem: brakes\napplies_to: [{model: wren-400, years: 2003-2012}]\n"
    "ride_advice: {level: do-not-ride, why: The brake may fail.}\ncautions: [battery-gas]\n"
    "causes:\n  - id: air\n    summary: Air in the line\n"
    "    fix: {summary: Bleed the brake., skill: workshop, labour_hours: 0.5, cautions: [battery-gas], "
    "verify: {do: Pull the lever., expect: It is firm}}\n"
    "checks: [{id: squeeze, do: Pull the lever., expect: It is firm, points_to: [air], before_riding: true, "
    "minutes: 2, skill: home}]\n"
    "sources: [{kind: manual, title: Workshop manual}]\nreviewed: {on: 2026-03-14, by: curator-1}\n"
)

RULE = Rule(
    code="KB704",
    title="No second pair of eyes",
    severity="warning",
    what="A published entry with a safety-critical fix that has no second reviewer, or the first one twice.",
    why="What one person overlooks here can hurt somebody.",
    sample=Sample(
        path="faults/brakes/lever-comes-back.yml",
        instead_of="",
        bad=_SAFE,
        good=_SAFE.replace("by: curator-1", "by: curator-1, second: mechanic-1"),
    ),
    alone="any day",
    check=check,
)
