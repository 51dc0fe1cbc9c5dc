"""What is new on a site, worked out once for its pages, its feeds, its data and its sitemap."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from kbtools.changes.by_case import Turn, turns
from kbtools.changes.news import News, news
from kbtools.edges.history import history
from kbtools.export.atom import feeds
from kbtools.export.news_words import last_days
from kbtools.index.answers import Index
from kbtools.index.cases import last_seen
from kbtools.model.memory import Memory
from kbtools.pages.turned import turned_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What is new."""

    news: tuple[News, ...]
    """All, the newest first."""
    turned: Mapping[str, Turn]
    """Id of a case → what it has turned."""
    days: Mapping[str, dt.date]
    """Address of a page → day of the last news of what it is about."""

    @property
    def digest(self) -> str:
        """Changes with what is new; the log may tell more than it did while the files stay the same."""
        return repr([(each.key, each.on) for each in self.news])

    def feeds(self, index: Index) -> dict[str, bytes]:
        """Path of each feed, from the site's root, and its bytes."""
        said = {case: turned_words(turn, index.published[turn.fault]) for case, turn in self.turned.items()}
        return dict(feeds(index, self.news, said))


def what_is_new(index: Index, folder: Path, today: dt.date, memory: Memory) -> Told:
    """What is new in the base that stands in a folder."""
    found = news(index, history(folder, memory))
    return Told(
        news=found,
        # Counted back from the last case, so that a feed is the same on whatever day it is made.
        turned=turns(index, last_seen(index.base) or today, memory=memory),
        days=last_days(index, found),
    )
