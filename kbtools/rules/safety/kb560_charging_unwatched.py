"""KB560: charging that nobody watches."""

from __future__ import annotations

from kbtools.rules.rule import Rule
from kbtools.rules.safety.work_texts import asks, told, until_read_twice

RULE = Rule(
    code="KB560",
    title="Charging that nobody watches",
    severity="warning",
    what=(
        "Work in an entry that leaves a battery on a charger overnight or alone, or charges a swollen or "
        "frozen one; automatic chargers that keep a battery full are left out. Words alone tell this less surely than "
        "other dangers, so it warns, and only until a second reader has looked at the entry."
    ),
    why="It gasses, bursts or burns while everybody sleeps.",
    sample=asks(
        "Leave it on the old charger overnight.",
        "Charge it with an automatic charger in the open and look in every hour.",
    ),
    alone="any day",
    check=until_read_twice(
        told(
            "charging-unwatched",
            "this charges a battery that nobody watches, or a damaged one.",
            (
                "Name an automatic charger of the right type, in the open, with somebody near; a swollen or frozen "
                "battery is not charged. If the words mean something else, let a second reader look at them and name "
                "the role: `second: mechanic-1`."
            ),
        )
    ),
)
