"""A measured value as somebody wrote it, and units of one quantity brought to one another.

The symbols are those of the SI brochure; the words beside them are what owners write.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

_BASES: Final[Mapping[str, Mapping[str, float]]] = {
    "volt": {"V": 1.0, "volt": 1.0, "volts": 1.0, "mV": 1e-3, "kV": 1e3},
    "ampere": {"A": 1.0, "amp": 1.0, "amps": 1.0, "mA": 1e-3, "µA": 1e-6},
    "ohm": {
        "Ω": 1.0,
        "ohm": 1.0,
        "ohms": 1.0,
        "mΩ": 1e-3,
        "milliohm": 1e-3,
        "kΩ": 1e3,
        "kohm": 1e3,
        "kilohm": 1e3,
        "kilohms": 1e3,
        "MΩ": 1e6,
        "megohm": 1e6,
    },
    "metre": {"m": 1.0, "cm": 1e-2, "mm": 1e-3},
    "pascal": {"Pa": 1.0, "kPa": 1e3, "bar": 1e5, "mbar": 1e2, "hPa": 1e2},
    "gram": {"g": 1.0, "kg": 1e3},
    "second": {"s": 1.0, "ms": 1e-3, "min": 60.0, "minutes": 60.0, "h": 3600.0},
    "degree Celsius": {"°C": 1.0},
    "per cent": {"%": 1.0},
    "turn per minute": {"rpm": 1.0},
    "newton metre": {"Nm": 1.0},
    "newton": {"N": 1.0},
    "kilometre per hour": {"km/h": 1.0},
}
"""Quantity → its units and what each is of the first one's."""
_UNITS: Final = {unit: (quantity, factor) for quantity, units in _BASES.items() for unit, factor in units.items()}
_VALUE: Final = re.compile(r"(?<![\w.,])([-+−]?\d{1,9}(?:[.,]\d{1,6})?)\s?(km/h|°C|%|[^\W\d_]{0,9})")


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A value with its unit."""

    value: float
    """In the unit as written."""
    rounding: float
    """Half of its last digit: it may have been so much more or less."""
    unit: str
    """As written; empty where none stands there."""


def measured(text: str) -> Measured | None:
    """The value that a text begins with; None where it says something else ("between 3 and 40 mA"), or several."""
    found = _VALUE.findall(text)
    first = _VALUE.match(text.strip())
    if len(found) != 1 or first is None:
        return None
    number, unit = first.groups()
    number = number.replace(",", ".").replace("−", "-")
    digits = len(number.partition(".")[2])
    return Measured(value=float(number), rounding=0.5 * 10**-digits, unit=unit if unit in _UNITS else "")


def quantity(unit: str) -> str | None:
    """What a unit is a unit of; None: not known here."""
    return _UNITS[unit.strip()][0] if unit.strip() in _UNITS else None


def times(unit: str, other: str) -> float | None:
    """By what a figure in one unit is multiplied to be in another; None where they measure different things."""
    one, two = _UNITS.get(unit.strip()), _UNITS.get(other.strip())
    return one[1] / two[1] if one is not None and two is not None and one[0] == two[0] else None


def in_first_unit(unit: str) -> float:
    """By what a figure in this unit is multiplied to be in the first one of its quantity; 1 for one not known here."""
    known = _UNITS.get(unit.strip())
    return known[1] if known is not None else 1.0
