"""Every generated page of a base."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from kbtools.changes.by_case import turns
from kbtools.changes.news import news
from kbtools.index.answers import Index
from kbtools.linting.explained import Explained
from kbtools.pages.catalogue import Catalogue, planned
from kbtools.pages.planned import Beside
from kbtools.pages.spec import PageSpec
from kbtools.replay import ReplayRow


def catalogue_of(
    index: Index, today: dt.date, rules: Sequence[Explained] = (), replayed: Sequence[ReplayRow] = ()
) -> Catalogue:
    """Every generated page, to be made; what is new and what turned is what the files alone tell."""
    told, turned = news(index), turns(index, today)
    return planned(index, Beside(today=today, rules=rules, replayed=replayed, told=told, turned=turned))


def all_pages(
    index: Index, today: dt.date, rules: Sequence[Explained] = (), replayed: Sequence[ReplayRow] = ()
) -> list[PageSpec]:
    """Every generated page, made at once."""
    return [each.make() for each in catalogue_of(index, today, rules, replayed).pages]
