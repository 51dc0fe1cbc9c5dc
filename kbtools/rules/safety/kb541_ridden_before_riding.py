"""KB541: check before riding that is done riding."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Checks of a bike that must not be ridden that come before riding, and are done riding."""
    for fault in faults(base):
        for each in fault.checks if fault.ride_level == "do-not-ride" else ():
            if each.before_riding and each.bike == "riding":
                message = f'The check "{short(each.id)}" comes before riding, and is done riding.'
                hint = "Let it be done on the standing bike, or take `before_riding` and `bike: riding` out."
                yield Breach(path=fault.path, pointer=f"{each.at}/before_riding", message=message, hint=hint)


_ENTRY = """\
title: Brake lever sinks
system: brakes
draft: true
ride_advice: {{level: do-not-ride, why: The brake may fail.}}
checks:
  - {{id: squeeze, do: Pull the lever hard., expect: It stays., bike: {}, before_riding: true}}
"""

RULE = Rule(
    code="KB541",
    title="Check before riding that is done riding",
    severity="error",
    what="A check with `before_riding: true` and `bike: riding` in an entry whose ride advice is do-not-ride.",
    why="It asks for the ride that it is to make safe.",
    sample=Sample(
        path="faults/brakes/lever-sinks.yml",
        instead_of="",
        bad=_ENTRY.format("riding"),
        good=_ENTRY.format("off"),
    ),
    alone="any day",
    check=check,
)
