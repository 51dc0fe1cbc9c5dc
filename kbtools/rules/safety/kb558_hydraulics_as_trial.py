"""KB558: hydraulic joint opened as a trial."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import living
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule
from kbtools.rules.safety.work_texts import asked_for, asks, breach, told

_RIDDEN = told(
    "hydraulics",
    "this opens a hydraulic joint and rides to see.",
    "Have it bled and the lever tried at walking pace before it is ridden.",
)


def check(base: KnowledgeBase, today: dt.date) -> Iterator[Breach]:
    """Texts that open a joint and ride, and fixes that do it on trial."""
    yield from _RIDDEN(base, today)
    ridden = {asked.where for asked in asked_for(base).get("hydraulics", ())}
    trials = {
        (fault.path, f"{cause.fix.at}/summary")
        for fault in living(base).values()
        for cause in fault.causes
        if cause.fix is not None and cause.fix.trial
    }
    for asked in asked_for(base).get("hydraulics-opened", ()):
        if asked.where not in ridden and (asked.where.path, asked.where.pointer) in trials:
            hint = "Take `trial` out, and add a check that shows the cause."
            yield breach(asked, "a hydraulic joint is not opened on trial.", hint)


RULE = Rule(
    code="KB558",
    title="Hydraulic joint opened as a trial",
    severity="error",
    what=(
        "Work in an entry that opens a hydraulic joint and then rides without bleeding; a fix with `trial` "
        "that opens one."
    ),
    why="Air gets in where fluid got out, and the lever comes back to the grip at the first junction.",
    sample=asks(
        "Loosen the banjo bolt, close it again and ride round the block.",
        "Open the bleed screw into a bottle, close it, pump until the lever is firm.",
    ),
    alone="any day",
    check=check,
)
