"""Machines on which another range of a shared check is good, for the browser."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.index.answers import Index
from kbtools.model.check import Check
from kbtools.model.fault import Fault


def other_ranges(fault: Fault, index: Index) -> dict[str, list[list[object]]]:
    """Id of a shared check that the fault uses → the machines on which another range is good; most have none."""
    return {check.id: list(_others(check, index)) for check in fault.checks if check.use is not None}


def _others(check: Check, index: Index) -> Iterator[list[object]]:
    """Machines on which another range is good: model, years, both limits; the first that fits holds."""
    for row in check.good_for:
        years = [year for year in index.years.get(row.model, ()) if row.years.holds(year)]
        yield [row.model, years, [row.good.low, row.good.high]]
