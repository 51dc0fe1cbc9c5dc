"""KB430: advice of a code or a cause that is milder than the fault's."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.model.ride_advice import RIDE_LEVELS, RideAdvice
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Codes and causes whose ride advice is milder than that of their fault."""
    for fault in faults(base):
        level = fault.ride_level
        if level is None or not fault.intact("/ride_advice/level"):
            continue
        rows: list[tuple[str, RideAdvice | None]] = [("code", row.ride_advice) for row in fault.codes]
        rows += [("cause", cause.ride_advice) for cause in fault.causes]
        for what, advice in rows:
            if advice is not None and RIDE_LEVELS.index(advice.level) > RIDE_LEVELS.index(level):
                message = f"This {what} is said to allow `{advice.level}`, which is milder than the fault's `{level}`."
                stricter = " or ".join(f"`{each}`" for each in RIDE_LEVELS[: RIDE_LEVELS.index(level)])
                hint = "Take it out: only what is mended and verified is mended"
                hint += f"; or write {stricter}." if stricter else "."
                yield Breach(path=fault.path, pointer=f"{advice.at}/level", message=message, hint=hint)


_PIECE = "    component: regulator\n"

RULE = Rule(
    code="KB430",
    title="Ride advice milder than the fault's",
    severity="error",
    what="A code or a cause with a `ride_advice` that is milder than that of the fault.",
    why="A rider would be sent on by a guess at the cause. The advice of a code or a cause can only be stricter.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of=_PIECE,
        bad=_PIECE + "    ride_advice: {level: ride-with-care, why: The plug holds for a while.}\n",
        good=_PIECE + "    ride_advice: {level: do-not-ride, why: The plug may burn.}\n",
    ),
    alone="any day",
    check=check,
)
