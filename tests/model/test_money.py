"""Money, hours and distances: digits against Babel, ranges as algebra."""

from __future__ import annotations

import math

import pytest
from babel import Locale
from babel.numbers import get_currency_precision
from hypothesis import given
from hypothesis import strategies as st

from kbtools.model.money import (
    KM_PER_MILE,
    ZERO,
    Distance,
    Range,
    currency_digits,
    parse_distance,
    show_about,
    show_about_range,
    show_money,
    show_number,
    show_range,
)

CUSTOM_DIFFERS = frozenset(
    [
        *("ADP", "AFN", "ALL", "BYR", "ESP", "IQD", "IRR", "ITL", "KPW", "LAK", "LBP", "LUF", "MGA", "MGF"),
        *("MMK", "MRO", "SLL", "SOS", "STD", "SYP", "TMM", "TRL", "YER", "ZMK", "ZWD"),
    ]
)
"""Babel takes its digits from CLDR, which goes by custom where the minor unit is worth nothing; there ISO 4217 still
has minor units (or the currency is gone). All of these are 0 in CLDR."""
AMOUNT = st.floats(0, 1e7, allow_nan=False)


@st.composite
def ranges(draw: st.DrawFn) -> Range:
    low, high = sorted([draw(AMOUNT), draw(AMOUNT)])
    return Range(low=low, high=high)


UNSETTLED = frozenset(["COP", "HUF", "IDR", "RSD"])
"""Here releases of CLDR go by custom or by ISO 4217 in turn; ISO 4217 has two digits."""


@pytest.mark.parametrize("currency", sorted(UNSETTLED))
def test_where_releases_of_cldr_differ_those_of_iso_4217_hold(currency: str) -> None:
    assert currency_digits(currency) == 2
    assert get_currency_precision(currency) in {0, 2}


@pytest.mark.parametrize("currency", sorted(set(Locale("en").currencies) - CUSTOM_DIFFERS - UNSETTLED))
def test_digits_behind_the_point_are_those_of_babel(currency: str) -> None:
    assert currency_digits(currency) == get_currency_precision(currency)


@pytest.mark.parametrize("currency", sorted(CUSTOM_DIFFERS))
def test_where_custom_drops_the_digits_those_of_iso_4217_stay(currency: str) -> None:
    assert get_currency_precision(currency) == 0
    # IQD has three by ISO 4217, the others two (checked once against the package iso4217 1.16, the list of 2026-01-01).
    assert currency_digits(currency) == (3 if currency == "IQD" else 2)


@given(ranges(), ranges(), ranges())
def test_adding_up_does_not_depend_on_the_order(a: Range, b: Range, c: Range) -> None:
    assert a + b == b + a
    left, right = (a + b) + c, a + (b + c)
    assert math.isclose(left.low, right.low)
    assert math.isclose(left.high, right.high)
    assert a + ZERO == a


@given(ranges(), ranges())
def test_any_price_within_adds_up_to_one_within(a: Range, b: Range) -> None:
    total = a + b
    assert total.low <= total.mid <= total.high
    assert math.isclose(total.mid, a.mid + b.mid, abs_tol=1e-6)


@given(ranges(), ranges(), st.floats(0, 1), st.floats(0, 1))
def test_hours_by_a_rate_hold_every_product_within(hours: Range, rate: Range, at: float, by: float) -> None:
    product = hours.times(rate)
    inside = (hours.low + at * (hours.high - hours.low)) * (rate.low + by * (rate.high - rate.low))
    slack = 1e-9 * max(1.0, product.high)
    assert product.low - slack <= inside <= product.high + slack


@pytest.mark.parametrize(
    ("low", "high", "currency", "shown"),
    [
        (8, 20, "EUR", "8–20\u00a0EUR"),
        (14, 14, "EUR", "14\u00a0EUR"),
        (7.5, 7.5, "EUR", "7.50\u00a0EUR"),
        (0, 0, "EUR", "0\u00a0EUR"),
        (1250, 12000, "JPY", "1\u202f250–12\u202f000\u00a0JPY"),
        (7.5, 7.5, "JPY", "8\u00a0JPY"),
        (1.2345, 1.2345, "KWD", "1.234\u00a0KWD"),
        (14.001, 14.004, "EUR", "14\u00a0EUR"),
    ],
)
def test_money_as_people_write_it(low: float, high: float, currency: str, shown: str) -> None:
    assert show_money(Range(low=low, high=high), currency) == shown


@pytest.mark.parametrize(("value", "shown"), [(1.0, "1"), (0.5, "0.5"), (13.5, "13.5"), (0.1 + 0.2, "0.3")])
def test_a_number_has_no_needless_digits(value: float, shown: str) -> None:
    assert show_number(value) == shown
    assert show_range(Range(low=value, high=value)) == shown


@pytest.mark.parametrize(("text", "value", "unit"), [("500 km", 500, "km"), ("300mi", 300, "mi"), ("0 km", 0, "km")])
def test_distances_that_an_entry_may_write(text: str, value: int, unit: str) -> None:
    read = parse_distance(text)
    assert read is not None
    assert (read.value, read.unit) == (value, unit)


@pytest.mark.parametrize("text", ["", "500", "km", "-5 km", "5.5 km", "500 KM", "500  km", "1e3 km", "٥ km", "5 km "])
def test_other_distances_are_refused(text: str) -> None:
    assert parse_distance(text) is None


@given(st.integers(0, 999_999_999))
def test_miles_and_kilometres_come_back(value: int) -> None:
    miles = Distance(value=value, unit="mi")
    assert math.isclose(miles.km, value * 1.609344)
    assert miles.shown_in("km").shown_in("mi") == miles
    assert miles.shown_in("mi") is miles


def test_a_mile_is_what_the_agreement_of_1959_says() -> None:
    # International yard 0.9144 m exactly (agreement of 1959), 1,760 yards a mile.
    assert math.isclose(1760 * 0.9144 / 1000, KM_PER_MILE, rel_tol=0, abs_tol=1e-12)


def test_thousands_are_set_apart() -> None:
    assert Distance(value=61200, unit="km").text == "61\u202f200\u00a0km"


@pytest.mark.parametrize(
    ("amount", "currency", "shown"),
    [
        (534.34, "EUR", "530 EUR"),
        (35.8, "EUR", "36 EUR"),
        (7.256, "EUR", "7.26 EUR"),
        (1234.0, "EUR", "1 200 EUR"),
        (999.7, "EUR", "1 000 EUR"),
        (0.0, "EUR", "0 EUR"),
        (7.256, "JPY", "7 JPY"),
        (7.2564, "KWD", "7.256 KWD"),
    ],
)
def test_a_reckoned_amount_shows_no_more_than_is_known(amount: float, currency: str, shown: str) -> None:
    assert show_about(amount, currency).replace("\u00a0", " ").replace("\u202f", " ") == shown


@pytest.mark.parametrize(
    ("low", "high", "currency", "shown"),
    [
        (298, 582.5, "EUR", "300–580 EUR"),
        (7, 9.5, "EUR", "7–10 EUR"),
        (4.2, 31, "EUR", "4–31 EUR"),
        (0, 0, "EUR", "0 EUR"),
        # So little that half of one is something.
        (1.5, 2.25, "EUR", "1.50–2.25 EUR"),
    ],
)
def test_both_ends_of_a_reckoned_range_are_as_coarse(low: float, high: float, currency: str, shown: str) -> None:
    """By hand; common practice, no source."""
    assert show_about_range(Range(low=low, high=high), currency).replace("\u00a0", " ") == shown
