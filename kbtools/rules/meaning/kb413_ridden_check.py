"""KB413: check that must be ridden on a bike that must not."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Checks that ask for a ride which the entry forbids."""
    for fault in faults(base):
        if fault.ride_advice is None or fault.ride_advice.level != "do-not-ride":
            continue
        for each in fault.checks:
            # One that is to come before riding is told by KB541.
            if each.bike == "riding" and not each.before_riding:
                message = f'The check "{short(each.id)}" is done riding, but this bike must not be ridden.'
                hint = "Find a check for a standing bike, or correct the ride advice."
                yield Breach(path=fault.path, pointer=f"{each.at}/bike", message=message, hint=hint)


_ENTRY = """\
title: Brake lever sinks
system: brakes
draft: true
ride_advice: {{level: do-not-ride, why: The brake may fail.}}
checks:
  - {{id: squeeze, do: Pull the lever hard., expect: It stays., bike: {}}}
"""

RULE = Rule(
    code="KB413",
    title="Riding check on a bike that must not be ridden",
    severity="error",
    what="A check with `bike: riding` in an entry whose ride advice is do-not-ride.",
    why="The entry would send a rider out on a bike that it calls unsafe.",
    sample=Sample(
        path="faults/brakes/lever-sinks.yml",
        instead_of="",
        bad=_ENTRY.format("riding"),
        good=_ENTRY.format("off"),
    ),
    alone="any day",
    check=check,
)
