"""KB565: good range that no sound machine shows."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterator

from kbtools.index.entries import living
from kbtools.model.base import KnowledgeBase
from kbtools.model.check import Reading
from kbtools.model.money import Range
from kbtools.model.sound_readings import BATTERY, BATTERY_VOLTS, BETWEEN, UNIT_LIMITS, WIDEST_BATTERY_VOLTS
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.vocabulary.stems import words_of

_THOUSANDTH = {"V": "mV", "A": "mA", "kV": "V", "kohm": "ohm", "kΩ": "Ω", "bar": "mbar", "m": "mm", "kg": "g"}
_THOUSAND = 1000.0


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Readings whose good range reaches where a faulty machine reads."""
    for fault in living(base).values():
        for each in fault.checks:
            reading = each.reading
            if reading is None or reading.good is None or not fault.intact(f"{reading.at}/good"):
                continue
            wrong = _wrong(reading, reading.good)
            if wrong is not None:
                hint = (
                    f"{_other_unit(reading.unit, reading.good)}"
                    "Write the range that a sound machine shows, from the handbook or measured on several."
                )
                yield Breach(path=fault.path, pointer=f"{reading.at}/good", message=wrong, hint=hint)


def _wrong(reading: Reading, good: Range) -> str | None:
    unit = (reading.unit or "").strip()
    if unit != "V" or BATTERY not in words_of(reading.place or ""):
        lowest, highest = UNIT_LIMITS.get(unit, (-math.inf, math.inf))
    elif not BETWEEN.isdisjoint(words_of(reading.place or "")):
        # What is lost between the battery and somewhere else begins at nothing.
        lowest, highest = -BATTERY_VOLTS[1], BATTERY_VOLTS[1]
    else:
        lowest, highest = BATTERY_VOLTS
        if lowest <= good.low and good.high <= highest and good.high - good.low > WIDEST_BATTERY_VOLTS:
            return (
                f"From {good.low:g} to {good.high:g} V at a battery there is room for a flat one or an overcharged one."
            )
    if good.low < lowest or good.high > highest:
        return f"No sound machine reads {good.low:g} to {good.high:g} {unit} there."
    return None


def _other_unit(unit: str | None, good: Range) -> str:
    """A question whether the figures are of the unit that is a thousandth: millivolts taken for volts."""
    small = _THOUSANDTH.get((unit or "").strip())
    if small is None or good.high < _THOUSAND:
        return ""
    return f'Are these figures in {small}? Then write "unit: {small}", or {good.low / 1000:g} to {good.high / 1000:g}. '


_PIECE = """\
    do: Measure across the battery.
    reading: {{at: battery posts, good: {}, unit: V, low_points_to: [corroded-plug]}}
"""

RULE = Rule(
    code="KB565",
    title="Good range that no sound machine shows",
    severity="error",
    what=(
        "A reading whose `good` range reaches below or above what a sound machine can show in its unit, or has room "
        "for a flat or an overcharged battery: 9 to 24 V across the posts."
    ),
    why="A reading that cannot come out bad clears every cause that it points to, also the one that is there.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of=(
            "    do: Pull the plug and look for green terminals.\n    expect: Bright metal.\n"
            "    points_to: [corroded-plug]\n"
        ),
        bad=_PIECE.format("[9, 24]"),
        good=_PIECE.format("[13.5, 14.8]"),
    ),
    alone="any day",
    check=check,
)
