"""`causes.csv`: a row a cause of a published fault, with its share over all machines."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.evidence import evidence_of, shares
from kbtools.export.csv_text import Cell
from kbtools.index.answers import Index
from kbtools.model.fault import Cause, Fault
from kbtools.model.money import Range

HEADER = (
    *("fault", "cause", "summary", "component", "share", "low", "high", "cases"),
    *("skill", "parts_low", "parts_high", "hours_low", "hours_high", "currency"),
)


def rows(fault: Fault, index: Index) -> Iterator[tuple[Cell, ...]]:
    """Shares are means with the ends of the central 90 % interval; parts in the club's currency, hours a workshop's."""
    causes = {cause.id: cause for cause in fault.causes}
    for share in shares(evidence_of(fault, index, index.club), None):
        cause = causes.get(share.id)
        about = (fault.id, share.id, cause.summary if cause else None, cause.component if cause else None)
        yield (*about, share.mean, share.low, share.high, share.cases, *_fix(cause, index.club.currency))


def _fix(cause: Cause | None, currency: str) -> tuple[Cell, ...]:
    fix = cause.fix if cause is not None else None
    if fix is None:
        return (None,) * 6
    prices = [part.price for part in fix.parts if part.price is not None]
    parts = Range(low=sum(each.low for each in prices), high=sum(each.high for each in prices))
    hours = fix.labour_hours
    return (
        fix.skill,
        parts.low,
        parts.high,
        hours.low if hours is not None else None,
        hours.high if hours is not None else None,
        currency,
    )
