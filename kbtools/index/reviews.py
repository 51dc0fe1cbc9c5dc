"""Which reviews are overdue, and which entries two people have read."""

from __future__ import annotations

import datetime as dt

from kbtools.model.catalogue import Club
from kbtools.model.days import months_after
from kbtools.model.fault import Fault


def overdue(fault: Fault, club: Club, today: dt.date) -> bool:
    """Whether the next review of an entry should have been before `today`; one that was never reviewed is not late."""
    return fault.reviewed is not None and months_after(fault.reviewed.on, club.review_after_months) < today


def read_twice(fault: Fault) -> bool:
    """Whether somebody other than the reviewer has read an entry."""
    reviewed = fault.reviewed
    if reviewed is None or reviewed.second is None:
        return False
    return reviewed.second.strip().casefold() != reviewed.by.strip().casefold()
