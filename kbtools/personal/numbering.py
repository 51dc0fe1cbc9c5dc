"""Whether digits are a telephone number of one of some countries, by their numbering plans.

Source: the library `phonenumbers`, which carries the plans that the regulators publish. It leaves out what is kept for
plays and films, and the newest ranges. So where all mobile numbers of a plan have one length, that length behind the
trunk prefix is enough; elsewhere the plan must have the number.

How strict the library is was chosen on the labelled texts: digits in groups must be grouped as the country does it,
since readings and part numbers are in groups as well; digits in one piece must have the trunk prefix, or the country's
code, or be a mobile number of a plan that has no prefix.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Sequence
from types import ModuleType
from typing import Any

_LEAST = 9
"""Digits in one piece; shorter ones are dates and part numbers as well, and must be grouped exactly."""

_SHORT_PLANS = frozenset(
    ["BH", "CY", "DK", "EE", "GT", "HK", "IS", "KW", "LV", "MO", "MT", "NO", "OM", "PA", "QA", "SG", "SV"]
)
"""Countries whose numbers may have eight digits without a prefix; the library is not asked for others with so few."""


def has_short_plan(countries: Sequence[str]) -> bool:
    """Whether one of these countries has numbers of fewer digits than the others."""
    return not _SHORT_PLANS.isdisjoint(countries)


def is_national(raw: str, countries: Sequence[str]) -> bool:
    """Whether a number, as it is written and without a + in front, is one of these countries' (ISO 3166-1 alpha-2).

    A country that the library does not know has none.
    """
    few = sum(each.isdigit() for each in raw) < _LEAST
    return any(_is_in_plan(raw, country) for country in countries if not few or country in _SHORT_PLANS)


@functools.lru_cache(maxsize=10_000)
def _is_in_plan(raw: str, country: str) -> bool:
    # Loaded only where digits have the look of a number: it takes as long as a whole small check.
    import phonenumbers  # noqa: PLC0415

    if country not in phonenumbers.SUPPORTED_REGIONS:
        return False
    plan = phonenumbers.PhoneMetadata.metadata_for_region(country)
    digits = re.sub("[^0-9]", "", raw)
    if _has_country_code(plan, digits):
        return True
    if raw == digits:
        return _is_glued_number(phonenumbers, plan, raw, country)
    leniency = phonenumbers.Leniency.EXACT_GROUPING if len(digits) < _LEAST else phonenumbers.Leniency.STRICT_GROUPING
    return _matches(phonenumbers, raw, country, leniency)


def _has_country_code(plan: Any, digits: str) -> bool:
    """Whether these are the country's code and a mobile number, by its length and its first digit."""
    code, mobile = str(plan.country_code), plan.mobile
    if not digits.startswith(code) or mobile is None or len(digits) < 11:
        return False
    example = mobile.example_number or "-"
    return (len(digits) - len(code),) == mobile.possible_length and digits[len(code)] == example[0]


def _is_glued_number(library: ModuleType, plan: Any, digits: str, country: str) -> bool:
    prefix = plan.national_prefix or ""
    if len(digits) < _LEAST or prefix == "1":
        return False
    if prefix and digits.startswith(prefix):
        mobile = plan.mobile.possible_length if plan.mobile else ()
        return (len(digits) - len(prefix),) == mobile or _matches(library, digits, country, library.Leniency.VALID)
    if prefix:
        return False
    number = library.parse(digits, country)
    # Italian numbers keep the 0 of their area.
    mobile = digits[0] == "0" or library.number_type(number) == library.PhoneNumberType.MOBILE
    return mobile and bool(library.is_valid_number(number))


def _matches(library: ModuleType, raw: str, country: str, leniency: int) -> bool:
    return any(True for _ in library.PhoneNumberMatcher(raw, country, leniency=leniency))
