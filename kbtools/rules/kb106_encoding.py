"""KB106: not UTF-8."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB106",
    title="Not UTF-8",
    severity="error",
    what="A file that is saved in another encoding than UTF-8.",
    why="Degree signs and accents would come out as other characters.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="title: Charge lamp flickers in the rain",
        bad="title: Charge lamp flickers at 5 °C",
        good="title: Charge lamp flickers at 5 °C",
        encoding="latin-1",
    ),
)
