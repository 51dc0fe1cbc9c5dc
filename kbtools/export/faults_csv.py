"""`faults.csv`: a row a published fault."""

from __future__ import annotations

from kbtools.export.csv_text import Cell, joined
from kbtools.model.fault import AppliesTo, Fault
from kbtools.wording import addresses

HEADER = ("id", "title", "system", "machines", "codes", "level", "does_not_start", "cases", "reviewed", "address")


def row(fault: Fault, cases: int) -> tuple[Cell, ...]:
    """Machines are `model years`, codes as written; `cases` are those that count."""
    return (
        fault.id,
        fault.title,
        fault.system,
        joined(map(_machine, fault.applies_to)),
        joined(each.read.text for each in fault.codes),
        fault.ride_level,
        fault.does_not_start,
        cases,
        fault.reviewed.on.isoformat() if fault.reviewed is not None else None,
        addresses.fault(fault.id),
    )


def _machine(applies_to: AppliesTo) -> str:
    return f"{applies_to.model} {applies_to.years.text}"
