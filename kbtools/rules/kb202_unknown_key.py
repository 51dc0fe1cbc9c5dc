"""KB202: unknown key."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB202",
    title="Unknown key",
    severity="error",
    what="A key that the format does not have.",
    why="It is usually a slip, and what it was meant to say would be lost.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="    minutes: 5",
        bad="    minuts: 5\n    minutes: 5",
        good="    minutes: 5",
    ),
)
