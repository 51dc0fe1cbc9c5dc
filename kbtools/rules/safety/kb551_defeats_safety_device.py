"""KB551: safety device defeated."""

from __future__ import annotations

from kbtools.rules.rule import Rule
from kbtools.rules.safety.work_texts import asks, told

RULE = Rule(
    code="KB551",
    title="Safety device defeated",
    severity="error",
    what=(
        "Work in an entry that bridges or leaves out a switch or sensor that stops the engine or keeps the "
        "wheels from locking, or that puts a bigger fuse, foil or wire in a fuse's place."
    ),
    why="The side-stand is down in the first bend, the wheel locks, or the loom burns in place of the fuse.",
    sample=asks(
        "Cut the wires of the side-stand switch and twist them together.",
        "Measure across the side-stand switch with the stand up and down.",
    ),
    alone="any day",
    check=told(
        "defeats-safety-device",
        "this puts a safety device out of action.",
        (
            "Say how the switch, sensor or fuse is tested or replaced; for a measurement alone, say that the "
            "bridge comes out again before the bike moves."
        ),
    ),
)
