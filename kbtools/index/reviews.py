"""Which reviews are overdue, and which entries two people have read."""

from __future__ import annotations

import datetime as dt

from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Club
from kbtools.model.days import months_after
from kbtools.model.fault import Fault


def due(fault: Fault, base: KnowledgeBase) -> dt.date | None:
    """The day on which an entry is to be read again; None where it never was, or no club says how often."""
    if fault.reviewed is None or base.club is None:
        return None
    return months_after(fault.reviewed.on, base.club.review_after_months)


def overdue(fault: Fault, club: Club, today: dt.date) -> bool:
    """Whether the next review of an entry should have been before `today`; one that was never reviewed is not late."""
    return fault.reviewed is not None and months_after(fault.reviewed.on, club.review_after_months) < today


def read_twice(fault: Fault) -> bool:
    """Whether somebody other than the reviewer has read an entry."""
    reviewed = fault.reviewed
    if reviewed is None or reviewed.second is None:
        return False
    return reviewed.second.strip().casefold() != reviewed.by.strip().casefold()
