"""Ranges of money and hours, and distances and speeds with their unit."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Literal

DistanceUnit = Literal["km", "mi"]
SpeedUnit = Literal["km/h", "mph"]

KM_PER_MILE = 1.609344
"""Exact, by the international yard and pound agreement of 1959."""

_DIGITS = {
    0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
    3: "BHD IQD JOD KWD LYD OMR TND",
    4: "CLF UYW",
}
"""Currencies of ISO 4217 whose minor unit is not a hundredth."""

_CURRENCY_DIGITS = {currency: digits for digits, group in _DIGITS.items() for currency in group.split()}

_DISTANCE = re.compile(r"(?P<value>[0-9]{1,9}) ?(?P<unit>km|mi)", re.ASCII)
_SPEED = re.compile(r"(?P<value>[0-9]{1,9}) ?(?P<unit>km/h|mph)", re.ASCII)


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """A range of money (club currency, tax included) or of hours."""

    low: float
    """The least it is expected to be."""
    high: float
    """The most it is expected to be; a single number in an entry is both ends."""

    @property
    def mid(self) -> float:
        """The middle of the range."""
        return (self.low + self.high) / 2

    def __add__(self, other: Range) -> Range:
        """Low ends add up, and high ends add up."""
        return Range(low=self.low + other.low, high=self.high + other.high)

    def times(self, factor: Range) -> Range:
        """Hours by an hourly rate: the ends multiplied, both ranges being 0 or more."""
        return Range(low=self.low * factor.low, high=self.high * factor.high)


_WHOLE_FROM = 10
"""From here on nothing behind the point is known of a reckoned amount."""

ZERO = Range(low=0, high=0)
"""What no parts cost."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Distance:
    """A whole distance as an odometer shows it."""

    value: int
    """In `unit`, 0 or more."""
    unit: DistanceUnit
    """`km` or `mi`, as the author wrote it."""

    @property
    def km(self) -> float:
        """The distance in kilometres, for comparing."""
        return self.value if self.unit == "km" else self.value * KM_PER_MILE

    def shown_in(self, unit: DistanceUnit) -> Distance:
        """The distance in another unit, rounded to a whole number."""
        if unit == self.unit:
            return self
        return Distance(value=round(self.km if unit == "km" else self.value / KM_PER_MILE), unit=unit)

    @property
    def text(self) -> str:
        """With thousands set apart by a narrow space: `61 200 km`."""
        return f"{self.value:,}".replace(",", "\u202f") + f"\u00a0{self.unit}"


def parse_distance(text: str) -> Distance | None:
    """Read `500 km` or `300 mi`; None where the text is neither."""
    match = _DISTANCE.fullmatch(text)
    if match is None:
        return None
    return Distance(value=int(match["value"]), unit="km" if match["unit"] == "km" else "mi")


@dataclass(frozen=True, slots=True, kw_only=True)
class Speed:
    """A whole speed as an instrument shows it."""

    value: int
    """In `unit`, 0 or more."""
    unit: SpeedUnit
    """`km/h` or `mph`, as the author wrote it."""

    @property
    def kmh(self) -> float:
        """The speed in kilometres an hour, for comparing."""
        return self.value if self.unit == "km/h" else self.value * KM_PER_MILE

    @property
    def text(self) -> str:
        """As people read it: `50 km/h`."""
        return f"{self.value}\u00a0{self.unit}"


def parse_speed(text: str) -> Speed | None:
    """Read `50 km/h` or `30 mph`; None where the text is neither."""
    match = _SPEED.fullmatch(text)
    if match is None:
        return None
    return Speed(value=int(match["value"]), unit="km/h" if match["unit"] == "km/h" else "mph")


def currency_digits(currency: str) -> int:
    """How many digits a price in this currency (ISO 4217 code) has behind the point: 0, 2, 3 or 4."""
    return _CURRENCY_DIGITS.get(currency, 2)


def show_money(amount: Range, currency: str) -> str:
    """A range as people write it: `8–20 EUR`, `14 EUR`, `7.50 EUR`; whole amounts without the digits of the point."""
    digits = currency_digits(currency)
    low, high = _amount(amount.low, digits), _amount(amount.high, digits)
    return f"{low if low == high else f'{low}–{high}'}\u00a0{currency}"


def show_about(amount: float, currency: str) -> str:
    """A reckoned amount, which is no price: two figures of it, and nothing behind the point from 10 on: `530 EUR`."""
    size = math.floor(math.log10(abs(amount))) if amount else 0
    rounded = round(amount, 1 - size if size >= 1 else currency_digits(currency))
    return show_money(Range(low=rounded, high=rounded), currency)


def show_about_range(amount: Range, currency: str) -> str:
    """A reckoned range, each end as `show_about` has it: `300–580 EUR`; from 5 on without hundredths: `7–10 EUR`."""
    ends = [amount.low, amount.high]
    if amount.high * 2 >= _WHOLE_FROM:
        ends = [math.floor(each + 0.5) if each < _WHOLE_FROM else each for each in ends]
    low, high = (show_about(each, currency).removesuffix(f"\u00a0{currency}") for each in ends)
    return f"{low if low == high else f'{low}–{high}'}\u00a0{currency}"


def show_number(value: float) -> str:
    """A number without a needless point: `1`, `0.5`, `13.5`."""
    return f"{value:.10g}"


def show_range(value: Range) -> str:
    """A range of numbers: `0.5–1`, `2`."""
    low, high = show_number(value.low), show_number(value.high)
    return low if low == high else f"{low}–{high}"


def _amount(value: float, digits: int) -> str:
    rounded = round(value, digits)
    text = f"{rounded:,.0f}" if rounded == int(rounded) else f"{rounded:,.{digits}f}"
    return text.replace(",", "\u202f")
