"""KB559: battery off while the engine runs."""

from __future__ import annotations

from kbtools.rules.rule import Rule
from kbtools.rules.safety.work_texts import asks, told

RULE = Rule(
    code="KB559",
    title="Battery off while the engine runs",
    severity="error",
    what="Work in an entry that takes a clamp or the battery off while the engine runs.",
    why=(
        "Without the battery the voltage jumps and takes regulator and control units with it; the spark meets "
        "battery gas."
    ),
    sample=asks(
        "With the engine running take the negative clamp off the battery.",
        "Measure across the battery with the engine running, both clamps tight.",
    ),
    alone="any day",
    check=told(
        "battery-running",
        "this takes the battery off a running engine.",
        "Have the engine stopped first, or measure the charging voltage with both clamps tight.",
    ),
)
