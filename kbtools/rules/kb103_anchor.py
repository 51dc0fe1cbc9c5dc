"""KB103: anchor or alias."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB103",
    title="Anchor or alias",
    severity="error",
    what="A value that is named with & or repeated with *.",
    why="An entry must be readable on its own, line by line, by people who do not know YAML.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="    access: [seat-off]\nsources",
        bad="    access: &way [seat-off]\nsources",
        good="    access: [seat-off]\nsources",
    ),
)
