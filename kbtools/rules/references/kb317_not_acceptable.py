"""KB317: accepting what cannot be accepted."""

from __future__ import annotations

from kbtools.rules.rule import Rule, Sample

RULE = Rule(
    code="KB317",
    title="Accepting what cannot be accepted",
    severity="error",
    what=(
        "A row of accepted.yml about a rule of the families KB0 to KB3, or about KB707. What cannot be read, has the "
        "wrong form or names nothing is to be mended."
    ),
    why="The site cannot be built from it, so accepting it would help nobody.",
    sample=Sample(
        path="accepted.yml",
        instead_of="",
        bad="- {rule: KB301, path: faults/charging/lamp-flickers.yml, at: /applies_to/0/model, because: To come.}\n",
        good="[]\n",
    ),
)
