"""KB105: directive."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB105",
    title="Directive",
    severity="error",
    what="A YAML directive, a line that starts with %.",
    why="Entries need none, and tools read them differently.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="title: Charge lamp flickers in the rain",
        bad="%YAML 1.2\n---\ntitle: Charge lamp flickers in the rain",
        good="title: Charge lamp flickers in the rain",
    ),
)
