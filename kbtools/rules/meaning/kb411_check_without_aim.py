"""KB411: check that points to nothing."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.checks import answer_intact, pointed
from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Checks from which nothing follows."""
    for fault in faults(base):
        for each in fault.checks:
            if fault.draft or pointed(each) or not answer_intact(fault, each):
                continue
            message = f'The check "{short(each.id)}" points to no cause.'
            if each.use is not None:
                pointer = f"{each.at}/use"
                hint = "Say what its results mean here: `points_to`, or `low_points_to` and `high_points_to`."
            elif each.reading is None:
                pointer, hint = f"{each.at}/points_to", "Name in `points_to` the causes that a bad result means."
            else:
                pointer = each.reading.at
                hint = "Name the causes in `low_points_to`, `high_points_to` or both."
            yield Breach(path=fault.path, pointer=pointer, message=message, hint=hint)


RULE = Rule(
    code="KB411",
    title="Check that points to nothing",
    severity="error",
    what="A check whose bad result, or whose low and high readings, point to no cause.",
    why="Whatever comes out of it, the owner is no wiser.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="checks:\n",
        bad=(
            "checks:\n  - {id: feel, do: Feel the plug., expect: It is cool., points_to: [], minutes: 1, skill: home}\n"
        ),
        good=(
            "checks:\n  - {id: feel, do: Feel the plug., expect: It is cool., points_to: [corroded-plug], "
            "minutes: 1, skill: home}\n"
        ),
    ),
    alone="any day",
    check=check,
)
