"""All generated pages of a site, and where two of them claim one address."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from kbtools.agenda.job import Job
from kbtools.changes.by_case import Turn, turns
from kbtools.changes.news import News, news
from kbtools.index.answers import Index
from kbtools.linting.explained import Explained
from kbtools.pages import (
    agenda,
    code,
    component,
    coverage,
    data,
    fault,
    figures,
    handbook,
    home,
    mechanics,
    model,
    model_year,
    moved,
    my_bike,
    new,
    report_form,
    rule,
    several,
    system,
    values,
)
from kbtools.pages.spec import PageSpec
from kbtools.replay import ReplayRow


@dataclass(frozen=True, slots=True, kw_only=True)
class Collision:
    """An address that more than one page claims."""

    address: str
    """From the site's root, as the first page has it."""
    titles: tuple[str, ...]
    """Titles of the generated pages, or paths of hand-written ones, that claim it."""


def all_pages(  # noqa: PLR0913 (what was worked out for other things as well)
    index: Index,
    today: dt.date,
    rules: Sequence[Explained] = (),
    replayed: Sequence[ReplayRow] = (),
    jobs: Sequence[Job] = (),
    *,
    told: Sequence[News] | None = None,
    turned: Mapping[str, Turn] | None = None,
) -> list[PageSpec]:
    """Every generated page.

    Args:
        index: of the knowledge base.
        today: decides which reviews are overdue.
        rules: those of the rule reference.
        replayed: the counted cases beside the advice that they would have had.
        jobs: what the curators do next.
        told: what is new, the newest first; None: what the files alone tell.
        turned: what cases have turned, by their id; None: those of the last weeks.

    Raises:
        ValueError: the knowledge base has no club. Such a base has errors, and is never published.
    """
    told = news(index) if told is None else told
    turned = turns(index, today) if turned is None else turned
    return [
        *_each(index, today, replayed, told, turned),
        *agenda.pages(index, jobs),
        *rule.pages(rules),
    ]


def _each(
    index: Index, today: dt.date, replayed: Sequence[ReplayRow], told: Sequence[News], turned: Mapping[str, Turn]
) -> Iterator[PageSpec]:
    yield from home.pages(index)
    faults = list(fault.pages(index, today, turned))
    yield from faults
    yield from code.pages(index)
    shown = dict(zip(index.published, (spec.context for spec in faults), strict=True))
    books = list(handbook.pages(index, today, shown))
    sizes = handbook.sizes(books)
    yield from model.pages(index, sizes)
    yield from model_year.pages(index, sizes)
    yield from books
    yield from values.pages(index)
    yield from system.pages(index)
    yield from component.pages(index)
    yield from several.pages(index)
    yield from my_bike.pages(index)
    yield from report_form.pages(index)
    yield from moved.pages(index)
    yield from figures.pages(index, replayed)
    yield from mechanics.pages(index)
    yield from coverage.pages(index, today)
    yield from new.pages(index, today, told, turned)
    yield from data.pages(index)


def collisions(specs: Iterable[PageSpec], hand_written: Iterable[tuple[str, str]] = ()) -> list[Collision]:
    """The addresses that more than one page claims; upper and lower case are one, as they are on many file systems.

    `hand_written` are pairs of address and path of the club's own pages, without the one that stands on the home page.
    """
    claims: dict[str, list[tuple[str, str]]] = {}
    for address, name in (*((spec.address, spec.title) for spec in specs), *hand_written):
        claims.setdefault(address.casefold(), []).append((address, name))
    return [
        Collision(address=own[0][0], titles=tuple(name for _, name in own)) for own in claims.values() if len(own) > 1
    ]
