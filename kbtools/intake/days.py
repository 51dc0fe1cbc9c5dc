"""Days as people write them, where it is sure which day is meant."""

from __future__ import annotations

import datetime as dt
import re
from typing import Final, Literal

Order = Literal["dmy", "mdy", "ymd"]
"""In which order day, month and year stand."""

_MONTHS: Final = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_CLOCK: Final = re.compile(
    r"[T ]\s*[0-9]{1,2}:[0-9]{2}(?::[0-9.]+)?\s*(?:Z|[+-][0-9:]+|[ap]m)?\Z", re.ASCII | re.IGNORECASE
)
_ORDINAL: Final = re.compile(r"(?<=[0-9])(?:st|nd|rd|th)\b", re.IGNORECASE)


class UnsureDayError(ValueError):
    """It is no day, or may be several; the words say which."""


def day(text: str, order: Order | None) -> dt.date:
    """The day that is meant.

    Args:
        text: `2026-03-14`, `14.3.2026`, `3/14/2026`, `14 March 2026`.
        order: as somebody says; None: nobody did, and what may be two days is none. Points stand between day, month
            and year in this order only.

    Raises:
        UnsureDayError: it is no day, or may be several.
    """
    plain = _CLOCK.sub("", text.strip())
    parts = re.findall(r"[0-9]+|[^\W\d_]+", _ORDINAL.sub("", plain))
    months = [_MONTHS.index(each[:3].casefold()) + 1 if each[:3].casefold() in _MONTHS else None for each in parts]
    if re.fullmatch(r"[0-9]{8}", plain, re.ASCII):
        parts = [plain[:4], plain[4:6], plain[6:]]
        months = [None] * 3
    named = next((number for number in months if number is not None), None)
    digits = [each for each, month in zip(parts, months, strict=True) if month is None]
    if len(parts) != 3 or not all(each.isascii() and each.isdecimal() for each in digits):
        raise UnsureDayError(f'"{text}" is no day. Write 2026-03-14.')
    if named is not None and len(digits) == 2:
        ways = _with_month(digits, named)
    else:
        ways = _ways(digits, "dmy" if order is None and "." in plain and len(digits[0]) < 3 else order)
    found = sorted({made for way in ways if (made := _made(*way)) is not None})
    if not found:
        raise UnsureDayError(f'"{text}" is no day. Write 2026-03-14.')
    if len(found) > 1:
        may = " or ".join(each.isoformat() for each in found)
        raise UnsureDayError(f'"{text}" may be {may}. Write it that way, or say the order of all with --dates.')
    return found[0]


def _with_month(digits: list[str], month: int) -> list[tuple[str, int, int]]:
    one, other = digits
    if len(one) == 4:
        return [(one, month, int(other))]
    if len(other) == 4:
        return [(other, month, int(one))]
    # "14 March 26": a year of two digits comes last wherever the month has a name.
    return [(other, month, int(one))]


def _ways(digits: list[str], order: Order | None) -> list[tuple[str, int, int]]:
    one, two, three = digits
    every: dict[Order, tuple[str, int, int]] = {
        "ymd": (one, int(two), int(three)),
        "dmy": (three, int(two), int(one)),
        "mdy": (three, int(one), int(two)),
    }
    if len(one) == 4:
        return [every["ymd"]]
    if order is not None:
        return [every[order]]
    return list(every.values()) if len(three) < 4 else [every["dmy"], every["mdy"]]


def _made(year: str, month: int, date: int) -> dt.date | None:
    if len(year) not in {2, 4}:
        return None
    try:
        # Of two digits it is this century: cases of the one before are written out.
        return dt.date(int(year) + (2000 if len(year) == 2 else 0), month, date)
    except ValueError:
        return None
