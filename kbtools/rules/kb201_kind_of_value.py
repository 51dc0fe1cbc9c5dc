"""KB201: wrong kind of value."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB201",
    title="Wrong kind of value",
    severity="error",
    what="A text where a number should be, one value where a list should be, and the like.",
    why="Nothing can be computed or shown from it.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="    minutes: 5",
        bad="    minutes: five",
        good="    minutes: 5",
    ),
)
