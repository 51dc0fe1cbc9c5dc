"""KB304: unknown caution."""

from __future__ import annotations

from kbtools.rules.references.named import unknown
from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB304",
    title="Unknown caution",
    severity="error",
    what="A caution that cautions.yml does not have.",
    why="A warning would be missing where the hands are.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="cautions: [battery-gas]",
        bad="cautions: [batery-gas]",
        good="cautions: [battery-gas]",
    ),
    alone="any day",
    check=unknown("caution"),
)
