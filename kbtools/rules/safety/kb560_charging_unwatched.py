"""KB560: charging that nobody watches."""

from __future__ import annotations

from kbtools.rules.rule import Rule
from kbtools.rules.safety.work_texts import asks, told

RULE = Rule(
    code="KB560",
    title="Charging that nobody watches",
    severity="warning",
    what=(
        "Work in an entry that leaves a battery on a charger overnight or alone, or charges a swollen or "
        "frozen one; automatic chargers that keep a battery full are left out."
    ),
    why="It gasses, bursts or burns while everybody sleeps.",
    sample=asks(
        "Leave it on the old charger overnight.",
        "Charge it with an automatic charger in the open and look in every hour.",
    ),
    check=told(
        "charging-unwatched",
        "this charges a battery that nobody watches, or a damaged one.",
        (
            "Name an automatic charger of the right type, in the open, with somebody near; a swollen or frozen "
            "battery is not charged."
        ),
    ),
)
