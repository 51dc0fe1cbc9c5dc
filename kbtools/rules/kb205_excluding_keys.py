"""KB205: keys that exclude each other."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB205",
    title="Keys that exclude each other",
    severity="error",
    what="Two keys of which only one may stand there.",
    why="It would be unclear which of them counts.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="    expect: Bright metal.\n    points_to: [corroded-plug]",
        bad="    expect: Bright metal.\n    reading: {good: [13.5, 14.8], unit: V, low_points_to: [corroded-plug]}",
        good="    reading: {good: [13.5, 14.8], unit: V, low_points_to: [corroded-plug]}",
    ),
)
