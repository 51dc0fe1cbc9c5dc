"""KB113: file missing."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB113",
    title="File missing",
    severity="error",
    what="A knowledge base without club.yml, systems.yml or cautions.yml.",
    why="Entries refer to what stands there; nothing could be checked.",
    sample=Sample(
        path="cautions.yml",
        instead_of="",
        bad=None,
        good="cautions:\n  - {id: battery-gas, text: A charging battery gives off gas that burns.}\n",
    ),
)
