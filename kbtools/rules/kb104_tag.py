"""KB104: tag."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB104",
    title="Tag",
    severity="error",
    what="A YAML tag, a word with ! before a value.",
    why="The schema says what kind of value stands where; a tag could only contradict it.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="title: Charge lamp flickers in the rain",
        bad="title: !!str Charge lamp flickers in the rain",
        good="title: Charge lamp flickers in the rain",
    ),
)
