"""KB305: unknown access job."""

from __future__ import annotations

from kbtools.rules.references.named import unknown
from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB305",
    title="Unknown access job",
    severity="error",
    what="An access job that systems.yml does not have.",
    why="Its minutes would be missing from the plan.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="      access: [seat-off]",
        bad="      access: [seat-of]",
        good="      access: [seat-off]",
    ),
    alone="any day",
    check=unknown("access job"),
)
