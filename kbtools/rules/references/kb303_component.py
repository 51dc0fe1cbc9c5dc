"""KB303: unknown component."""

from __future__ import annotations

from kbtools.rules.references.named import unknown
from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB303",
    title="Unknown component",
    severity="error",
    what="A component that systems.yml does not have.",
    why="The cause would not be linked with others of the same part.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="component: regulator",
        bad="component: regulater",
        good="component: regulator",
    ),
    check=unknown("component"),
)
