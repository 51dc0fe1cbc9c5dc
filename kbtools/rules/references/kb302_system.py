"""KB302: unknown system."""

from __future__ import annotations

from kbtools.rules.references.named import unknown
from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB302",
    title="Unknown system",
    severity="error",
    what="A system that systems.yml does not have.",
    why="The entry would stand on no system's page.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="system: charging\n",
        bad="system: chargin\n",
        good="system: charging\n",
    ),
    alone="any day",
    check=unknown("system"),
)
