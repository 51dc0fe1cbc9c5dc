"""KB330: unknown shared check."""

from __future__ import annotations

from kbtools.rules.references.named import unknown
from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB330",
    title="Unknown shared check",
    severity="error",
    what="A check with `use` that checks.yml does not have.",
    why="Nobody could do it: what to do and what is good stands there alone.",
    sample=Sample(
        path="faults/charging/battery-flat.yml",
        instead_of="use: battery-rest",
        bad="use: batery-rest",
        good="use: battery-rest",
    ),
    alone="any day",
    check=unknown("shared check"),
)
