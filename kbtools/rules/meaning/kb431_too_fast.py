"""KB431: check that is ridden faster than the advice allows."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Checks whose speed is above the highest that the ride advice allows."""
    for fault in faults(base):
        most = fault.ride_advice.max_speed if fault.ride_advice is not None else None
        for each in fault.checks:
            if most is not None and each.speed is not None and each.speed.kmh > most.kmh:
                message = f'The check "{short(each.id)}" is ridden at {each.speed.text}; the advice allows {most.text}.'
                hint = "Find a speed within the advice at which it still shows, or correct `max_speed`."
                yield Breach(path=fault.path, pointer=f"{each.at}/speed", message=message, hint=hint)


_ENTRY = """\
title: Weaves on the motorway
system: charging
draft: true
ride_advice: {{level: ride-to-workshop, why: The tyre may be low., max_speed: 80 km/h}}
checks:
  - {{id: let-go, do: Ride straight on., expect: It does not weave., bike: riding, speed: {}}}
"""

RULE = Rule(
    code="KB431",
    title="Check ridden too fast",
    severity="error",
    what="A check whose `speed` is above the `max_speed` of the entry's ride advice.",
    why="The entry would ask a rider for a speed that it calls unsafe.",
    sample=Sample(
        path="faults/charging/weaves.yml",
        instead_of="",
        bad=_ENTRY.format("60 mph"),
        good=_ENTRY.format("80 km/h"),
    ),
    alone="any day",
    check=check,
)
