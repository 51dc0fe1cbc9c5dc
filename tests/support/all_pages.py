"""Every generated page of a base, made at once."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence

from kbtools.agenda.job import Job
from kbtools.changes.by_case import Turn, turns
from kbtools.changes.news import News, news
from kbtools.index.answers import Index
from kbtools.linting.explained import Explained
from kbtools.pages.catalogue import planned
from kbtools.pages.planned import Beside, Planned
from kbtools.pages.spec import PageSpec
from kbtools.replay import ReplayRow


def all_planned(
    index: Index,
    today: dt.date,
    rules: Sequence[Explained] = (),
    replayed: Sequence[ReplayRow] = (),
    jobs: Sequence[Job] = (),
    *,
    told: Sequence[News] | None = None,
    turned: Mapping[str, Turn] | None = None,
) -> Sequence[Planned]:
    """Every generated page, to be made; `told` and `turned` of None are what the files alone tell."""
    beside = Beside(
        today=today,
        rules=rules,
        replayed=replayed,
        jobs=jobs,
        told=news(index) if told is None else told,
        turned=turns(index, today) if turned is None else turned,
    )
    return planned(index, beside).pages


def all_pages(
    index: Index,
    today: dt.date,
    rules: Sequence[Explained] = (),
    replayed: Sequence[ReplayRow] = (),
) -> list[PageSpec]:
    """Every generated page, made."""
    return [each.make() for each in all_planned(index, today, rules, replayed)]
