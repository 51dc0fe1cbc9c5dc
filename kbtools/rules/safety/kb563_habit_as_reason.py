"""KB563: mild ride advice for the reason that everybody rides like that."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import living
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.work_texts import WorkText, breach, dangers_in

_MILD = frozenset({"ride-with-care", "no-restriction"})


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Reasons for a mild level that name a habit."""
    for fault in living(base).values():
        advice = fault.ride_advice
        if advice is None or advice.why is None or advice.level not in _MILD:
            continue
        text = WorkText(path=fault.path, pointer=f"{advice.at}/why", text=advice.why, part="advice")
        for kind, asked in dangers_in(base.tables, (text,)):
            if kind == "habit-as-reason":
                hint = "Say what still works and how that was tried, or advise ride-to-workshop or do-not-ride."
                yield breach(asked, f"a habit is no reason for `{advice.level}`.", hint)


_PIECE = "ride_advice: {{level: ride-with-care, why: {}}}"

RULE = Rule(
    code="KB563",
    title="Mild ride advice out of habit",
    severity="error",
    what="Ride advice milder than ride-to-workshop whose `why` says that everybody does so, or that it was always so.",
    why="That nobody has fallen yet tells nothing about the next rider, who takes this line for somebody's knowledge.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="ride_advice: {level: ride-to-workshop, why: A flat battery stops the engine.}",
        bad=_PIECE.format("Everybody in the circle rides like that."),
        good=_PIECE.format("It charges at speed; with the lamps on at idle it empties slowly."),
    ),
    alone="any day",
    check=check,
)
