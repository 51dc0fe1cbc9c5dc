"""What a comparison reads of an entry decides whether it is made again; what else an entry says does not."""

from __future__ import annotations

import dataclasses
import datetime as dt
import itertools
from collections.abc import Iterator
from typing import Any

from kbtools.model.case import Case
from kbtools.model.fault import Fault
from kbtools.similarity.cases import ready_cases
from kbtools.similarity.comparison import comparable
from kbtools.similarity.features import Readier
from kbtools.similarity.pairs import comparable_cases
from kbtools.similarity.ready import as_row
from kbtools.similarity.seen import seen_of_case, seen_of_fault
from tests.support.demo_read import demo_with

BASE = demo_with().base


def with_others(one: Any, other: Any) -> Iterator[Any]:
    """The one with each part of the other in the place of its own, one at a time."""
    for field in dataclasses.fields(one):
        mine, theirs = getattr(one, field.name), getattr(other, field.name)
        changed = [theirs]
        if dataclasses.is_dataclass(mine) and type(mine) is type(theirs):
            changed += with_others(mine, theirs)
        elif isinstance(mine, tuple) and mine and theirs and dataclasses.is_dataclass(mine[0]):
            changed += [(each, *mine[1:]) for each in with_others(mine[0], theirs[0])]
        yield from (dataclasses.replace(one, **{field.name: each}) for each in changed)


def test_no_part_of_a_fault_is_compared_unseen(thorough: bool) -> None:
    faults = comparable(BASE)
    readier = Readier(BASE, faults)

    def compared(fault: Fault) -> Any:
        said = readier.said(fault)
        return as_row(said), said.keys, [(cause.id, readier.ways(cause)) for cause in fault.causes]

    for one, other in itertools.pairwise(faults[: 40 if thorough else 14]):
        own = compared(one)
        changed = [each for each in with_others(one, other) if compared(each) != own]
        assert changed
        assert all(seen_of_fault(each) != seen_of_fault(one) for each in changed)


def test_no_part_of_a_case_is_compared_unseen() -> None:
    cases = comparable_cases(BASE)

    def compared(case: Case) -> Any:
        return ready_cases(BASE, [case])[0]

    for one, other in itertools.pairwise(cases[:40]):
        own = compared(one)
        changed = [each for each in with_others(one, other) if compared(each) != own]
        assert changed
        assert all(seen_of_case(each) != seen_of_case(one) for each in changed)


def test_what_is_not_compared_changes_nothing() -> None:
    fault = next(each for each in comparable(BASE) if each.reviewed is not None and each.ride_advice is not None)
    advice, reviewed = fault.ride_advice, fault.reviewed
    assert advice is not None
    assert reviewed is not None
    edited = dataclasses.replace(
        fault,
        ride_advice=dataclasses.replace(advice, why="Since this morning."),
        reviewed=dataclasses.replace(reviewed, on=dt.date(2026, 1, 1)),
        sources=(),
    )
    assert seen_of_fault(edited) == seen_of_fault(fault)
