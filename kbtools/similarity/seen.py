"""All of an entry that its comparison looks at: where that is the same of every entry, all comes out as it did.

Most edits change something else: a price, a source, a review, the reason of an advice.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from kbtools.index.entries import living
from kbtools.index.narrowed import lists_digest
from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.codes import CodeReading
from kbtools.model.fault import Fault
from kbtools.model.pool import key


def seen_of_fault(fault: Fault) -> bytes:
    """A digest of what `features` and `met` read of a fault."""
    return _digest(
        (
            fault.id,
            fault.title,
            fault.system,
            fault.symptoms,
            [(row.model, row.years.first, row.years.last, row.unit) for row in fault.applies_to],
            [(_code(row.read), row.unit) for row in fault.codes],
            [(each.id, each.component, each.summary, each.fix and each.fix.summary) for each in fault.causes],
            [(each.do, each.expect) for each in fault.checks],
        )
    )


@per_base
def seen_of_faults(base: KnowledgeBase) -> Mapping[str, bytes]:
    """Id of a fault that nobody has withdrawn → the same of it."""
    return {fault.id: seen_of_fault(fault) for fault in living(base).values()}


def seen_of_case(case: Case) -> bytes:
    """A digest of what the comparison of cases reads of one."""
    vehicle, odometer = case.vehicle, case.vehicle.odometer
    return _digest(
        (
            case.id,
            case.follows,
            (vehicle.bike, vehicle.model, vehicle.year),
            case.seen and case.seen.toordinal(),
            odometer and (odometer.value, odometer.unit),
            case.symptoms,
            case.outcome.note,
            [_code(each.read) for each in case.codes],
            case.fault,
            case.outcome.cause,
        )
    )


def of_all(base: KnowledgeBase, seen: Iterable[bytes]) -> bytes:
    """One digest of what is seen of entries, in order, and of the club's lists."""
    return key(lists_digest(base), *seen)


def _code(read: CodeReading) -> tuple[Any, ...]:
    return read.text, [(each.format, each.text) for each in read.matches]


def _digest(parts: tuple[Any, ...]) -> bytes:
    # Written with escapes for what UTF-8 has no bytes for.
    return key(repr(parts).encode())
