"""Which entries there are, and in which state.

| | published | withdrawn | draft |
|---|---|---|---|
| `faults` | yes | yes | yes |
| `published` | yes | no | no |
| `tombstones` | no | yes, unless it is a draft as well | no |
| `living` | yes | no | yes |
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence

from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.fault import Fault


def faults(base: KnowledgeBase) -> Iterable[Fault]:
    """Every entry about a fault, whatever its state, for who has something to say of each. In the order of the files.

    Files whose id another one has already come last: what else is wrong with them is told in the same run.

    A question about all of them belongs into this package, and is asked there.
    """
    return itertools.chain(base.faults.values(), base.double_faults)


def cases(base: KnowledgeBase) -> Iterable[Case]:
    """Every case, for who has something to say of each. In the order of the files."""
    return itertools.chain(base.cases.values(), base.double_cases)


@per_base
def published(base: KnowledgeBase) -> Mapping[str, Fault]:
    """The faults that are advice on the site, by id, in the order of the files."""
    return {fault.id: fault for fault in base.faults.values() if fault.published}


@per_base
def tombstones(base: KnowledgeBase) -> Mapping[str, Fault]:
    """The withdrawn entries whose address says so, by id, in the order of the files."""
    return {fault.id: fault for fault in base.faults.values() if fault.withdrawn is not None and not fault.draft}


@per_base
def living(base: KnowledgeBase) -> Mapping[str, Fault]:
    """The faults that nobody has withdrawn, drafts among them, by id: what a newcomer may repeat."""
    return {fault.id: fault for fault in base.faults.values() if fault.withdrawn is None}


@per_base
def drafts(base: KnowledgeBase) -> Sequence[Fault]:
    """The entries that wait to be finished, in the order of the files."""
    return [fault for fault in base.faults.values() if fault.draft and fault.withdrawn is None]


@per_base
def ids_by_path(base: KnowledgeBase) -> Mapping[str, str]:
    """Path of a file → id of the entry or case in it."""
    found = {fault.path: fault.id for fault in base.faults.values()}
    return found | {case.path: case.id for case in base.cases.values()}


@per_base
def fault_at(base: KnowledgeBase) -> Mapping[str, Fault]:
    """The entry that a file holds, by the path of the file; double ones among them."""
    return {fault.path: fault for fault in faults(base)}


@per_base
def faults_by_cause(base: KnowledgeBase) -> Mapping[str, Sequence[str]]:
    """Id of a cause → ids of the faults that have one of that id: causes are ids within their fault."""
    having: dict[str, list[str]] = {}
    for fault in base.faults.values():
        for cause in fault.causes:
            having.setdefault(cause.id, []).append(fault.id)
    return having


def titles(base: KnowledgeBase) -> Mapping[str, str]:
    """Id → title of every entry, whatever its state."""
    return {fault.id: fault.title for fault in base.faults.values()}


def has_page(base: KnowledgeBase, path: str) -> bool:
    """Whether the club has written the page of that path, such as `pages/safety.md`, by hand."""
    return any(page.path == path for page in base.pages)
