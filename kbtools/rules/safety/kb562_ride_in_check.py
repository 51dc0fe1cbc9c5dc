"""KB562: ride in a check that says that the bike stands."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule
from kbtools.rules.safety.work_texts import UNSAFE, asked_for, asks, breach


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Checks whose words ask for a ride and whose key `bike` does not, unless the ride itself is what is wrong."""
    unsafe = {asked.where for kind, rows in asked_for(base).items() if kind in UNSAFE for asked in rows}
    for asked in asked_for(base).get("ride-in-check", ()):
        where = asked.where
        if where.part == "check" and where.bike != "riding" and where not in unsafe:
            says = f"this is ridden, and `bike` says {where.bike}."
            hint = "Write `bike: riding`, or find a check for a standing bike."
            yield breach(asked, says, hint)


RULE = Rule(
    code="KB562",
    title="Ride in a check for a standing bike",
    severity="error",
    what="A check whose `do` asks for a ride, while its `bike` is off, key-on or running; not where the ride is over.",
    why="What may be ridden is decided by that key: a rider is sent out on a bike that the entry forbids to ride.",
    sample=asks("Ride round the block and look whether the lamp flickers.", "Look whether the lamp flickers."),
    alone="any day",
    check=check,
)
