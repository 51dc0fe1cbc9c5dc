"""KB111: empty file."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB111",
    title="Empty file",
    severity="error",
    what="A file without any content.",
    why="It would be an entry that says nothing.",
    sample=Sample(
        path="faults/charging/lamp-dim.yml",
        instead_of="",
        bad="# to be written\n",
        good="title: Horn silent\nsystem: charging\ndraft: true\n",
    ),
)
