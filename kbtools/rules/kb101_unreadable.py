"""KB101: not readable."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB101",
    title="Not readable",
    severity="error",
    what="A file that is not YAML, cannot be opened or holds a control character.",
    why="Nothing of it can be used until it can be read.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="title: Charge lamp flickers in the rain",
        bad="title: Charge lamp: flickers in the rain",
        good='title: "Charge lamp: flickers in the rain"',
    ),
)
