"""KB555: hand or tool at what turns."""

from __future__ import annotations

from kbtools.rules.rule import Rule
from kbtools.rules.safety.work_texts import asks, told

RULE = Rule(
    code="KB555",
    title="Hand or tool at what turns",
    severity="error",
    what="Work in an entry that cleans, touches or probes chain, sprocket, wheel or fan while the engine drives it.",
    why="Between chain and sprocket a finger is lost in half a turn.",
    sample=asks(
        "Engine in first gear, hold a rag against the chain as it runs through.",
        "Engine off, gearbox in neutral, turn the wheel by hand and wipe the chain.",
    ),
    alone="any day",
    check=told(
        "moving-parts",
        "this brings a hand or a tool to what turns.",
        "Have the wheel turned by hand with the engine off and the key out, or the fan's fuse out first.",
    ),
)
