"""KB110: too large or too deep."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB110",
    title="Too large or too deep",
    severity="error",
    what="A file of more than a million bytes, or nested more than 24 levels deep.",
    why="No entry needs it; it would make reading slow for everybody.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="related: [battery-flat]",
        bad="related: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]]]]]]]]]",
        good="related: [battery-flat]",
    ),
)
