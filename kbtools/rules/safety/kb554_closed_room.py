"""KB554: engine running in a closed room."""

from __future__ import annotations

from kbtools.rules.rule import Rule
from kbtools.rules.safety.work_texts import asks, told

RULE = Rule(
    code="KB554",
    title="Engine running in a closed room",
    severity="error",
    what="Work in an entry that starts or runs the engine behind closed doors or in a cellar.",
    why="Carbon monoxide has no smell; in a garage a few minutes are enough.",
    sample=asks("Shut the garage door, start it and listen.", "Push it out into the yard, start it and listen."),
    alone="any day",
    check=told(
        "closed-room",
        "this runs an engine in a closed room.",
        "Have it done outdoors, or with the door wide open and extraction on the silencer.",
    ),
)
