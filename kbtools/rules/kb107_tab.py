"""KB107: tab indentation."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB107",
    title="Tab indentation",
    severity="error",
    what="A tab where spaces should indent.",
    why="YAML does not allow it, since a tab is as wide as each editor likes.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="sources:\n  - {kind",
        bad="sources:\n\t- {kind",
        good="sources:\n  - {kind",
    ),
)
