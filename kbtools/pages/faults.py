"""The pages of all published faults, and their files among the open formats; each is made once while it is needed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import Any, Final

from kbtools.export.fault_json import Reckoned, of_published, reckon
from kbtools.export.fault_json import path as json_path
from kbtools.export.json_text import document
from kbtools.index.answers import Index
from kbtools.index.asked import Derived, Shared
from kbtools.index.entries import has_page
from kbtools.index.reviews import overdue
from kbtools.pages.code_plan import FirstStep, first_step
from kbtools.pages.fault import SAFETY_FILE, page_of, work_of
from kbtools.pages.planned import Given, Planned, PlannedFile
from kbtools.pages.spec import PageSpec
from kbtools.wording import addresses

_NEAR: Final = 8
"""Pages that are kept: a fault's file is made right before or after its page."""


def pages(given: Given, shown: Mapping[str, PageSpec]) -> Iterator[Planned]:
    """The pages of all published faults; `shown` makes them (`specs`)."""
    index = given.index
    for each in index.published:
        make = partial(shown.__getitem__, each)
        yield Planned(address=addresses.fault(each), kind="fault", make=make, group=top_of(each, index), member=each)


def files(given: Given, shown: Mapping[str, PageSpec]) -> Iterator[PlannedFile]:
    """The entries as the open formats have them: what was reckoned for a page is told there as well."""
    index = given.index

    def made(each: str) -> bytes:
        return document(of_published(index.published[each], reckoned_for(shown[each]), index)).content

    for each in index.published:
        yield PlannedFile(path=json_path(each), make=partial(made, each), group=top_of(each, index), member=each)


def top_of(fault_id: str, index: Index) -> str:
    """Id of the system at the top, by which pages are grouped; empty where an entry names no system."""
    path = index.paths.get(index.published[fault_id].system or "", ())
    return path[0].id if path else ""


def plans(given: Given, most: int) -> Shared[str, Reckoned | None]:
    """The plans of published faults by id, for an owner of whom nothing is known; `most` are kept at once."""
    index = given.index
    return Shared(lambda each: reckon(index.published[each], index), given.log, most)


def begins(given: Given, reckoned: Mapping[str, Reckoned | None]) -> Shared[str, FirstStep | None]:
    """What the plans of published faults begin with, by id; `reckoned` gives the plans (`plans`).

    All are kept, which is little: pages of codes ask for faults of any group.
    """
    index = given.index
    return Shared(lambda each: first_step(index.published[each], index, reckoned[each]), given.log)


def works(
    given: Given, reckoned: Mapping[str, Reckoned | None], begun: Mapping[str, FirstStep | None], most: int
) -> Shared[str, Mapping[str, Any]]:
    """What pages and handbooks show of published faults by id, made where it is asked for; `most` are kept at once.

    `reckoned` gives their plans (`plans`), `begun` what those begin with (`begins`).
    """
    index = given.index

    def make(each: str) -> Mapping[str, Any]:
        begun[each]  # Known while the plan is at hand: nobody need work it out again for that.
        return work_of(index.published[each], index, reckoned=reckoned[each])

    return Shared(make, given.log, most)


def specs(given: Given, shown: Mapping[str, Mapping[str, Any]], ready: Callable[[str], None]) -> Shared[str, PageSpec]:
    """The pages of published faults by id, made where they are asked for, and kept for the next few.

    `shown` gives what handbooks show of them as well (`works`), `ready` makes of it what they keep.
    """
    index = given.index

    def is_late(each: str) -> bool:
        return overdue(index.published[each], index.club, given.today)

    late = Derived("overdue", is_late, given.log)

    def make(each: str) -> PageSpec:
        ready(each)
        safety = addresses.SAFETY if has_page(index.base, SAFETY_FILE) else None
        return page_of(index.published[each], index, safety, given.turned, late=late[each], work=shown[each])

    return Shared(make, given.log, _NEAR)


def reckoned_for(spec: PageSpec) -> Reckoned | None:
    """What was reckoned for a fault's page: the open formats say the same."""
    found = spec.context.get("reckoned")
    return found if isinstance(found, Reckoned) else None
