"""KB301: unknown model."""

from __future__ import annotations

from kbtools.rules.references.named import unknown
from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB301",
    title="Unknown model",
    severity="error",
    what="A model that has no file in models/.",
    why="The entry would show for no machine.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="model: wren-400",
        bad="model: wren-40",
        good="model: wren-400",
    ),
    alone="any day",
    check=unknown("model"),
)
