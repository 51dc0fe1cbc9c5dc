"""KB707: acceptance that is no longer needed."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB707",
    title="Acceptance that is no longer needed",
    severity="warning",
    what=(
        "A row of accepted.yml whose rule finds nothing at that place. As long as a file of the knowledge base cannot "
        "be read, or a rule has broken down, it is not asked."
    ),
    why="It would hide the next mistake that is made there.",
    sample=Sample(
        path="accepted.yml",
        instead_of="",
        bad="- {rule: KB410, path: faults/charging/lamp-flickers.yml, at: /causes/0/id, because: One bike only.}\n",
        good="[]\n",
    ),
)
