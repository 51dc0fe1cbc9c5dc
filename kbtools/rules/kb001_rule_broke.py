"""KB001: a rule broke down."""

from __future__ import annotations

from kbtools.rules.rule import Rule

RULE = Rule(
    code="KB001",
    title="A rule broke down",
    severity="error",
    what="A mistake in kbtools itself: one of its rules could not be run to its end.",
    why="What that rule would have found is not known, so nothing is published.",
    sample=None,
)
