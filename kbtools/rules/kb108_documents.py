"""KB108: several documents."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB108",
    title="Several documents",
    severity="error",
    what="A second document in one file.",
    why="One file is one entry: its name is the entry's id.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="related: [battery-flat]",
        bad="---\nrelated: [battery-flat]",
        good="related: [battery-flat]",
    ),
)
