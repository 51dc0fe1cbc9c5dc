"""KB204: wrong value."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB204",
    title="Wrong value",
    severity="error",
    what="A value that is not among the allowed ones, or not of the form or size that is asked for.",
    why="It could not be shown or compared.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="level: ride-to-workshop",
        bad="level: ride-to-workshp",
        good="level: ride-to-workshop",
    ),
)
