"""A base of which only some entries, cases and pages are seen, beside the club's lists (systems, models, checks, …)."""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Collection, Mapping
from typing import Final

from kbtools.index.entries import cases
from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.pool import key

_ONE_BY_ONE: Final = ("faults/", "cases/", "pages/", "pictures/", "accepted.yml")
"""How the paths of the files begin that can be left out; all others are lists."""


def stands_alone(path: str) -> bool:
    """Whether a file can be looked at by itself beside the club's lists; False: it is such a list."""
    return path.startswith(_ONE_BY_ONE)


def second_ones(base: KnowledgeBase) -> frozenset[str]:
    """The files whose id another one has already."""
    return frozenset((*(each.path for each in base.double_faults), *(each.path for each in base.double_cases)))


def narrowed(base: KnowledgeBase, paths: Collection[str]) -> KnowledgeBase:
    """The base with these files and the lists alone, and without what follows from all of its files."""
    return dataclasses.replace(
        base,
        faults={name: each for name, each in base.faults.items() if each.path in paths},
        cases={name: each for name, each in base.cases.items() if each.path in paths},
        double_faults=tuple(each for each in base.double_faults if each.path in paths),
        double_cases=tuple(each for each in base.double_cases if each.path in paths),
        pages=tuple(each for each in base.pages if each.path in paths),
        writings=base.writings.of(lambda path: path in paths or not stands_alone(path)),
        accepted=(),
        repeated=(),
        whole=True,
        touched=frozenset(),
        digest="",
        digests={},
    )


@per_base
def lists_digest(base: KnowledgeBase) -> bytes:
    """Changes with what is seen beside the entries, cases and pages themselves: the lists, and which pictures exist."""
    files = [part for path, own in base.digests.items() if not stands_alone(path) for part in (path.encode(), own)]
    pictures = [[each.path, each.digest.hex()] for each in base.pictures]
    return key(*files, json.dumps([sorted(base.unsure), pictures, sorted(base.lost_pictures)]).encode())


@per_base
def digests_with_cases(base: KnowledgeBase) -> Mapping[str, bytes]:
    """Id of a fault that cases name → digest of its file, of theirs, and of the club's lists."""
    lists = lists_digest(base)
    parts: dict[str, list[bytes]] = {}
    for case in cases(base):
        fault = base.faults.get(case.fault or "")
        if fault is not None:
            own = parts.setdefault(fault.id, [lists, fault.path.encode(), base.digests[fault.path]])
            own += (case.path.encode(), base.digests[case.path])
    return {fault: key(*own) for fault, own in parts.items()}
