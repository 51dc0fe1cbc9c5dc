"""KB310: unknown fault."""

from __future__ import annotations

from kbtools.rules.references.named import unknown
from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB310",
    title="Unknown fault",
    severity="error",
    what="A fault that has no file in faults/; one that has another id now is named by its old one.",
    why="The link would lead nowhere.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="related: [battery-flat]",
        bad="related: [battery-flatt]",
        good="related: [battery-flat]",
    ),
    check=unknown("fault"),
)
