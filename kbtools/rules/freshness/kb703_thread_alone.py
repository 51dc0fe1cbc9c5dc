"""KB703: a forum thread alone behind a safety-critical fix."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.safety import critical_faults
from kbtools.model.base import KnowledgeBase
from kbtools.rules.freshness.backing import thread_alone
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Entries with safety-critical work that nothing but forum threads speaks for, each once."""
    for fault in critical_faults(base):
        if thread_alone(base, fault):
            message = "Nothing but a forum thread stands behind work on a safety-critical system."
            hint = "Add the maker's manual, a standard or somebody who has done it, or withdraw the fix."
            yield Breach(path=fault.path, pointer=f"{fault.sources[0].at}/kind", message=message, hint=hint)


_SAFE = (
    "title: Brake lever comes back\nsystem: brakes\napplies_to: [{model: wren-400, years: 2003-2012}]\n"
    "ride_advice: {level: do-not-ride, why: The brake may fail.}\ncautions: [battery-gas]\n"
    "causes:\n  - id: air\n    summary: Air in the line\n"
    "    fix: {summary: Bleed the brake., skill: workshop, labour_hours: 0.5, cautions: [battery-gas], "
    "verify: {do: Pull the lever., expect: It is firm}}\n"
    "checks: [{id: squeeze, do: Pull the lever., expect: It is firm, points_to: [air], before_riding: true, "
    "minutes: 2, skill: home}]\n"
    "sources:\n  - {kind: forum, title: It pumps up}\nreviewed: {on: 2026-03-14, by: curator-1, second: mechanic-1}\n"
)

RULE = Rule(
    code="KB703",
    title="A forum thread alone behind a safety-critical fix",
    severity="warning",
    what=(
        "An entry with a fix on a safety-critical system whose sources are forum threads only, without a case that "
        "counts and comes from elsewhere."
    ),
    why="Somebody could be hurt by advice that nobody answers for.",
    sample=Sample(
        path="faults/brakes/lever-comes-back.yml",
        instead_of="",
        bad=_SAFE,
        good=_SAFE.replace("reviewed:", "  - {kind: manual, title: Workshop manual}\nreviewed:"),
    ),
    check=check,
)
