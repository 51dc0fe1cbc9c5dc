"""Whole months from a day on: when a review is due."""

from __future__ import annotations

import calendar
import datetime as dt


def months_after(day: dt.date, months: int) -> dt.date:
    """The same day so many months later, or the last of a month that is too short for it; never past the calendar."""
    count = day.month - 1 + months
    year, month = day.year + count // 12, count % 12 + 1
    if year > dt.MAXYEAR:
        return dt.date.max
    return dt.date(year, month, min(day.day, calendar.monthrange(year, month)[1]))
