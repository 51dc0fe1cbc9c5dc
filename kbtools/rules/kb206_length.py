"""KB206: list too short or too long."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB206",
    title="List too short or too long",
    severity="error",
    what="A range without two ends, a list that must not be empty, a member twice.",
    why="A range has a low and a high end; an empty list says nothing.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="labour_hours: [0.5, 1]",
        bad="labour_hours: [0.5]",
        good="labour_hours: [0.5, 1]",
    ),
)
