"""Pages that are made when they are needed, from what they ask meanwhile."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from kbtools.agenda.job import Job
from kbtools.changes.by_case import Turn
from kbtools.changes.news import News
from kbtools.index.answers import Index
from kbtools.index.asked_base import AskedMapping, Log
from kbtools.linting.explained import Explained
from kbtools.pages.spec import PageSpec, source_of
from kbtools.replay import ReplayRow

LAST: Final = "\uffff"
"""What stands after all members of its group begins with it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A page of the site before it is made."""

    address: str
    """As its spec will have it."""
    kind: str
    """As its spec will have it."""
    make: Callable[[], PageSpec]
    """Makes it. It holds on to keys only, and asks for all else: what it does not ask for, nobody would note."""
    listed: bool = True
    """Whether the sitemap has it."""
    group: str = ""
    """Those of one group share what they are made from, and are made one after another: the system at the top."""
    member: str = ""
    """Those of one member of a group share most of what they are made from: a fault, a model, one of its years."""

    @property
    def source(self) -> str:
        """The name by which a hand-written page links to it."""
        return source_of(self.address)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedFile:
    """A file that is made from what a page is made from, as it is needed."""

    path: str
    """From the site's root."""
    make: Callable[[], bytes]
    """Makes it; as a page's."""
    group: str = ""
    """Those of one group share what they are made from, and are made one after another: the system at the top."""
    member: str = ""
    """Those of one member of a group share most of what they are made from: a fault, a model, one of its years."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What pages are made from beside the knowledge base."""

    today: dt.date
    """Decides which reviews are overdue."""
    rules: Sequence[Explained] = ()
    """Those of the rule reference."""
    replayed: Sequence[ReplayRow] = ()
    """The counted cases beside the advice that they would have had."""
    jobs: Sequence[Job] = ()
    """What the curators do next."""
    told: Sequence[News] = ()
    """What is new, the newest first."""
    turned: Mapping[str, Turn]
    """What cases have turned, by their id."""

    def by_name(self) -> dict[str, Mapping[Any, Any]]:
        """The same as mappings, whose names are those of the notes that are taken of them."""
        whole = {"today": self.today, "rules": self.rules, "replayed": self.replayed}
        return {"beside": {**whole, "jobs": self.jobs, "told": self.told}, "turned": self.turned}


class Given:
    """What pages are made from; it notes what of it each asks for."""

    def __init__(self, index: Index, beside: Beside, log: Log) -> None:
        """`index` takes its notes in the same log."""
        named = beside.by_name()
        self.index = index
        self.log = log
        self.turned: Mapping[str, Turn] = AskedMapping("turned", named["turned"], log)
        self._beside: Mapping[str, Any] = AskedMapping("beside", named["beside"], log)

    @property
    def today(self) -> dt.date:
        """The day of the build."""
        return self._beside["today"]  # type: ignore[no-any-return]

    @property
    def rules(self) -> Sequence[Explained]:
        """Those of the rule reference."""
        return self._beside["rules"]  # type: ignore[no-any-return]

    @property
    def replayed(self) -> Sequence[ReplayRow]:
        """The counted cases beside the advice that they would have had."""
        return self._beside["replayed"]  # type: ignore[no-any-return]

    @property
    def jobs(self) -> Sequence[Job]:
        """What the curators do next."""
        return self._beside["jobs"]  # type: ignore[no-any-return]

    @property
    def told(self) -> Sequence[News]:
        """What is new."""
        return self._beside["told"]  # type: ignore[no-any-return]
