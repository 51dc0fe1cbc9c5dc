"""Which pictures entries and lists name, and where."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.index.checks import own_checks
from kbtools.model.base import KnowledgeBase
from kbtools.model.picture import Picture
from kbtools.model.shared import SHARED_PATH


def named(base: KnowledgeBase) -> Iterator[tuple[str, Picture]]:
    """Every picture that is named, with the file of the knowledge base that does."""
    for rows in (
        *(part.pictures for part in base.components.values()),
        *(job.pictures for job in base.access.values()),
    ):
        yield from (("systems.yml", each) for each in rows)
    for shared in base.checks.values():
        yield from ((SHARED_PATH, each) for each in shared.check.pictures)
    for fault in base.faults.values():
        for check in own_checks(fault):
            yield from ((fault.path, each) for each in check.pictures)


def of_entries(base: KnowledgeBase) -> frozenset[str]:
    """Paths of the pictures that may be published: somebody has looked at them, and says so where they are named."""
    return frozenset(picture.path for _, picture in named(base))
