"""KB316: accepting something that is not there."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB316",
    title="Accepting what is not there",
    severity="error",
    what="A row of accepted.yml that names a rule which does not exist, or a file that is not in the knowledge base.",
    why="It accepts nothing, and the finding that is meant stays.",
    sample=Sample(
        path="accepted.yml",
        instead_of="",
        bad="- {rule: KB410, path: faults/charging/lamp-flicker.yml, at: /causes/0/id, because: One bike only.}\n",
        good="[]\n",
    ),
)
