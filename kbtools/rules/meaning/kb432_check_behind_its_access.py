"""KB432: check that its own access forbids."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.access import forbids, most_allowed
from kbtools.index.checks import written
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Checks during which the bike does more than the access that they take allows."""
    for path, each in written(base):
        if forbids(base, each.access, each.bike):
            most = most_allowed(each.access, base)
            message = (
                f'The check "{short(each.id)}" is done with `bike: {each.bike}`, but what it opens allows '
                f"`{most}` at most."
            )
            hint = (
                "Say how it is done on the closed bike: leave the access job out and count its minutes, or choose "
                "another check. If the bike may do so while that is open, correct `allows` in systems.yml."
            )
            yield Breach(path=path, pointer=f"{each.at}/bike", message=message, hint=hint)


_PIECE = "  - {id: seat-off, name: Seat off, minutes: 3, cautions: [battery-gas]}\n"

RULE = Rule(
    code="KB432",
    title="Check that its own access forbids",
    severity="error",
    what="A check whose `bike` state is more than its access jobs, and those that they need, allow (`allows`).",
    why="Somebody would run an engine, or ride, with the tank or a wheel off.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="    minutes: 5\n    skill: home\n    access: [seat-off]\n",
        bad="    minutes: 5\n    skill: home\n    access: [battery-out]\n    bike: key-on\n",
        good="    minutes: 5\n    skill: home\n    access: [battery-out]\n    bike: off\n",
    ),
    alone="any day",
    check=check,
)
