"""KB109: file in the wrong place."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB109",
    title="File in the wrong place",
    severity="error",
    what="A file in a folder where it does not belong, or with a name that is no id.",
    why="The name and the folder are the entry's id and kind; it would not be found.",
    sample=Sample(
        path="faults/charging/Lamp_dim.yml",
        instead_of="",
        bad="title: Horn silent\nsystem: charging\ndraft: true\n",
        good="title: Horn silent\nsystem: charging\ndraft: true\n",
        good_path="faults/charging/lamp-dim.yml",
    ),
)
