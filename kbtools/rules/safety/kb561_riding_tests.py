"""KB561: riding test that throws the rider."""

from __future__ import annotations

from kbtools.rules.rule import Rule
from kbtools.rules.safety.work_texts import asks, told

RULE = Rule(
    code="KB561",
    title="Riding test that throws the rider",
    severity="error",
    what=(
        "Work in an entry that rides with hands off the bars, brakes as hard as possible on a road, or rides "
        "with a brake that does not work."
    ),
    why="A weave at 100 km/h with no hand on the bars ends in the crash that it was to show.",
    sample=asks(
        "At 100 km/h take both hands off the bars and watch.",
        "Front wheel off the ground, let the bars fall to both sides.",
    ),
    alone="any day",
    check=told(
        "riding-test",
        "this is a riding test that throws a rider.",
        "Find a check for a standing bike or for walking pace on a closed yard.",
    ),
)
