"""KB112: key that is no word."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB112",
    title="Key that is no word",
    severity="error",
    what="A list or a mapping where a key should stand.",
    why="Usually a text that starts with a bracket and lacks its quotes.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="    do: Pull the plug and look for green terminals.",
        bad="    ? [do]\n    : Pull the plug and look for green terminals.",
        good="    do: Pull the plug and look for green terminals.",
    ),
)
