"""KB553: ignition voltage in the hand."""

from __future__ import annotations

from kbtools.rules.rule import Rule
from kbtools.rules.safety.work_texts import asks, told

RULE = Rule(
    code="KB553",
    title="Ignition voltage in the hand",
    severity="error",
    what="Work in an entry that holds, pulls or touches plug caps, leads or coils while the engine runs or is cranked.",
    why="Some 30,000 volts throw the hand into what turns, and stop a heart with a pacemaker.",
    sample=asks(
        "With the engine idling pull each plug cap off by hand.",
        "Engine off, pull each plug cap off and look for white traces.",
    ),
    alone="any day",
    check=told(
        "ignition-voltage",
        "this brings a hand to the ignition's high voltage.",
        "Have it done with the engine off, or with a spark tester clipped to the frame and hands away.",
    ),
)
