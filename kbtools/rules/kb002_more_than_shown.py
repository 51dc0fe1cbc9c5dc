"""KB002: a rule has found more than is shown."""

from __future__ import annotations

from kbtools.rules.rule import Rule

RULE = Rule(
    code="KB002",
    title="More than is shown",
    severity="warning",
    what="A rule that has found thousands of places: the others are not shown, and not looked for.",
    why="Nobody reads so many, and they would fill the memory; most often one mistake is behind them all.",
    sample=None,
)
