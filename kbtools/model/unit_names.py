"""The symbols of units, and what people write instead.

Symbols are those of the SI brochure; `ohm` and `kohm` stand for theirs, since few keyboards have an omega.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

_NAMES: Final[Mapping[str, tuple[str, ...]]] = {
    "V": ("volt", "volts", "v"),
    "mV": ("millivolt", "millivolts", "mv"),
    "kV": ("kilovolt", "kilovolts", "kv"),
    "A": ("amp", "amps", "ampere", "amperes", "a"),
    "mA": ("milliamp", "milliamps", "milliampere", "milliamperes", "ma"),
    "ohm": ("ohms", "ohm"),
    "kohm": ("kilohm", "kilohms", "kiloohm", "kiloohms", "kohms", "kohm"),
    "W": ("watt", "watts", "w"),
    "bar": ("bars", "bar"),
    "kPa": ("kilopascal", "kilopascals", "kpa"),
    "psi": ("psi",),
    "°C": ("celsius", "centigrade", "degrees celsius", "degrees c", "deg c", "° c", "°c", "c"),
    "rpm": ("rpm", "r/min", "rev/min", "revs/min", "u/min", "revs", "revolutions per minute"),
    "mm": ("millimetre", "millimetres", "millimeter", "millimeters", "mm"),
    "cm": ("centimetre", "centimetres", "centimeter", "centimeters", "cm"),
    "Nm": ("newton metre", "newton metres", "newton meter", "newton meters", "newtonmetre", "n m", "nm"),
    "N": ("newton", "newtons", "n"),
    "kg": ("kilogram", "kilograms", "kilo", "kilos", "kg"),
    "g": ("gram", "grams", "gramme", "grammes", "g"),
    "ml": ("millilitre", "millilitres", "milliliter", "milliliters", "ml"),
    "s": ("second", "seconds", "sec", "secs"),
    "%": ("percent", "per cent", "pct"),
    "Hz": ("hertz", "hz"),
    "km": ("kilometre", "kilometres", "kilometer", "kilometers", "km"),
}
_SYMBOLS: Final = {name: symbol for symbol, names in _NAMES.items() for name in names}


def symbol(unit: str) -> str | None:
    """The symbol of a unit that may be spelt out or in other letters; None: not known here."""
    plain = unit.strip()
    return plain if plain in _NAMES else _SYMBOLS.get(plain.casefold().rstrip("."))
