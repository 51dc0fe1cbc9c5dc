"""Which day it is: the only place that asks the clock."""

from __future__ import annotations

import datetime as dt
import os


def today() -> dt.date:
    """The day in UTC; `SOURCE_DATE_EPOCH`, seconds since 1970, sets it for builds that must come out the same.

    Raises:
        ValueError: the variable is set and is no number of seconds.
    """
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    now = dt.datetime.now(dt.UTC) if not epoch else dt.datetime.fromtimestamp(int(epoch), dt.UTC)
    return now.date()
