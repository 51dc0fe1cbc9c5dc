"""Which day it is: the only place that asks the clock."""

from __future__ import annotations

import datetime as dt
import os
import re
from typing import Final

_SECONDS: Final = re.compile(r"[0-9]{1,10}", re.ASCII)
_LAST_YEAR: Final = 2099
"""No file of a knowledge base can name a later one."""


def today() -> dt.date:
    """The day in UTC; `SOURCE_DATE_EPOCH`, seconds since 1970, sets it for builds that must come out the same.

    Raises:
        ValueError: the variable is set and is no such number, or one that leads too far.
    """
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    if not epoch:
        return dt.datetime.now(dt.UTC).date()
    day = dt.datetime.fromtimestamp(int(epoch), dt.UTC).date() if _SECONDS.fullmatch(epoch) else None
    if day is None or day.year > _LAST_YEAR:
        raise ValueError(
            f'SOURCE_DATE_EPOCH is "{epoch[:40]}", but should be whole seconds since 1970, not beyond {_LAST_YEAR}.'
        )
    return day
