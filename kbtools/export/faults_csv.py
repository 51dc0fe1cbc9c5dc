"""`faults.csv`: a row a published fault."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.export.csv_text import Cell, csv_text, joined
from kbtools.index.answers import Index
from kbtools.index.cases import counted_naming
from kbtools.model.fault import AppliesTo
from kbtools.wording import addresses

HEADER = ("id", "title", "system", "machines", "codes", "level", "does_not_start", "cases", "reviewed", "address")


def faults_csv(index: Index) -> str:
    """Machines are `model years`, codes as written; `cases` are those that count."""
    return csv_text(HEADER, _rows(index))


def _rows(index: Index) -> Iterator[tuple[Cell, ...]]:
    cases = counted_naming(index.base)
    for fault in index.published.values():
        yield (
            fault.id,
            fault.title,
            fault.system,
            joined(map(_machine, fault.applies_to)),
            joined(row.read.text for row in fault.codes),
            fault.ride_level,
            fault.does_not_start,
            len(cases.get(fault.id, ())),
            fault.reviewed.on.isoformat() if fault.reviewed is not None else None,
            addresses.fault(fault.id),
        )


def _machine(row: AppliesTo) -> str:
    return f"{row.model} {row.years.text}"
