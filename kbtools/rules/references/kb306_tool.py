"""KB306: unknown tool."""

from __future__ import annotations

from kbtools.rules.references.named import unknown
from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB306",
    title="Unknown tool",
    severity="error",
    what="A tool that systems.yml does not have.",
    why="An owner would not be told that it is needed.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="tools: [multimeter]",
        bad="tools: [multimetre]",
        good="tools: [multimeter]",
    ),
    alone="any day",
    check=unknown("tool"),
)
