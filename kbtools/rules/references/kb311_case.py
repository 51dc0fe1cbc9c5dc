"""KB311: unknown case."""

from __future__ import annotations

from kbtools.rules.references.named import unknown
from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB311",
    title="Unknown case",
    severity="error",
    what="A case that has no file in cases/.",
    why="Two reports of one story would not be put together.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="fault: lamp-flickers\n",
        bad="fault: lamp-flickers\nfollows: wren-400-0009\n",
        good="fault: lamp-flickers\n",
    ),
    check=unknown("case"),
)
