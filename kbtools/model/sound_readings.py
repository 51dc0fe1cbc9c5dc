"""Between which figures a sound machine can read at all, by place and unit: wider than any good range should be.

Common practice of workshops on machines with 6 or 12 volts, no single source. What is not here is not known.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

BATTERY: Final = "battery"
"""The word of a place at a battery."""
BETWEEN: Final = frozenset({"to", "against", "between", "drop"})
"""Words of a place that is two: what is read there is lost between them."""
BATTERY_VOLTS: Final = (5.2, 15.6)
"""Volts across a battery: from one of 6 volts that turns the starter to one of 12 volts that charges in the cold."""
WIDEST_BATTERY_VOLTS: Final = 4.0
"""Volts between the ends of a range at a battery: between 9.6 while starting and 12.6, with something to spare."""
UNIT_LIMITS: Final[Mapping[str, tuple[float, float]]] = {
    "V": (-500.0, 1000.0),
    "mV": (-100_000.0, 100_000.0),
    "kV": (-60.0, 60.0),
    "A": (-600.0, 600.0),
    "mA": (-100_000.0, 100_000.0),
    "%": (-100.0, 200.0),
    "°C": (-50.0, 1000.0),
    "Ω": (0.0, 100_000_000.0),
    "ohm": (0.0, 100_000_000.0),
    "kΩ": (0.0, 100_000.0),
    "kohm": (0.0, 100_000.0),
    "rpm": (0.0, 20_000.0),
    "mm": (-500.0, 5000.0),
    "bar": (-1.0, 400.0),
    "Nm": (0.0, 400.0),
}
"""Unit → lowest and highest figure anywhere on a motorcycle: pulses of an ignition's primary side, its high tension, a
starter's current, trims in per cent, exhaust gas, insulation, gas in a damper."""
