"""KB102: key twice."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB102",
    title="Key twice",
    severity="error",
    what="The same key twice in one mapping.",
    why="Only one of the two could count, and nobody would notice which.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="related: [battery-flat]",
        bad="related: []\nrelated: [battery-flat]",
        good="related: [battery-flat]",
    ),
)
