"""The finder's files, made while the rest of the site is filled: they ask for nothing that it makes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Final

from kbtools.browser_data.finder import concerned_addresses, finder_files
from kbtools.edges import cache
from kbtools.edges.beside import second_or_none
from kbtools.model.base import KnowledgeBase
from kbtools.model.second import by_itself
from kbtools.site.assets import data_folder, json_files
from kbtools.wording import addresses

MUCH: Final = 1_000
"""So many entries and cases are worth a second process."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FinderData:
    """What the finder reads."""

    contents: Mapping[str, bytes]
    """Its files, by name."""
    folder: str
    """Where they stand, from the site's root."""
    concerned: Sequence[str]
    """Addresses of the faults and codes in the order of their places."""


@contextmanager
def finder_data(base: KnowledgeBase, today: dt.date, hand: Collection[str]) -> Iterator[Callable[[], FinderData]]:
    """Begin with it, and give what waits for it.

    Args:
        base: the knowledge base.
        today: the day of the build.
        hand: addresses of the hand-written pages.
    """

    def made() -> FinderData:
        # A store of its own: an open one must not be shared by two processes.
        with cache.opened(cache.place(), today.toordinal()) as memory:
            files = finder_files(base, today.year, {addresses.SEVERAL, *hand}, memory)
        contents = json_files(files)
        return FinderData(
            contents=contents, folder=data_folder("finder", contents), concerned=concerned_addresses(files)
        )

    begin = second_or_none if len(base.faults) + len(base.cases) >= MUCH else by_itself
    with begin(made) as result:
        yield result
