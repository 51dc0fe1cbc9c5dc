"""KB552: hot cooling system or exhaust."""

from __future__ import annotations

from kbtools.rules.rule import Rule
from kbtools.rules.safety.work_texts import asks, told

RULE = Rule(
    code="KB552",
    title="Hot cooling system or exhaust",
    severity="error",
    what=(
        "Work in an entry that opens the cooling system of a hot engine, or lays a hand on exhaust, cylinder "
        "or brake disc after a run."
    ),
    why="Coolant at 110 °C boils over the face and hands of who takes the cap off.",
    sample=asks(
        "Straight after a ride take the radiator cap off and look.",
        "Let it stand for two hours, then take the radiator cap off and look.",
    ),
    alone="any day",
    check=told(
        "pressure-heat",
        "this opens or touches what is hot.",
        "Say how long to let it cool first, or how to measure it without touching.",
    ),
)
