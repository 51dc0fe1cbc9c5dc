"""All generated pages of a site, and where two of them claim one address."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from kbtools.index.answers import Index
from kbtools.index.asked import asked_index
from kbtools.index.asked_base import Log
from kbtools.pages import (
    agenda,
    code,
    component,
    coverage,
    data,
    faults,
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
from kbtools.pages.code_plan import FirstStep
from kbtools.pages.planned import Beside, Given, Planned, PlannedFile
from kbtools.pages.spec import PageSpec
from kbtools.wording import addresses

MOST_KEPT: Final = 800
"""Faults of which is kept what pages and handbooks show: after an edit parts of several handbooks ask for the same."""
_NEAR: Final = 8
"""Faults of which the plan is kept by itself: what is made from one is made together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Collision:
    """An address that more than one page claims."""

    address: str
    """From the site's root, as the first page has it."""
    titles: tuple[str, ...]
    """Titles of the generated pages, or paths of hand-written ones, that claim it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """Every generated page of a site, none of them made."""

    pages: tuple[Planned, ...]
    """Those that share what they are made from stand together."""
    files: tuple[PlannedFile, ...]
    """What is made from the same as the pages are."""
    log: Log
    """Where is noted what is asked while a page is made."""

    def in_order(self) -> list[Planned | PlannedFile]:
        """All, so that what is made from the same stands together: that is kept for so long only."""
        return sorted((*self.files, *self.pages), key=lambda each: (each.group == "", each.group, each.member))

    index: Index
    """The index that takes the notes."""


def planned(index: Index, beside: Beside) -> Catalogue:
    """Every generated page.

    Args:
        index: of the knowledge base.
        beside: what else pages are made from.

    Raises:
        ValueError: the knowledge base has no club. Such a base has errors, and is never published.
    """
    log = Log()
    given = Given(asked_index(index, log), beside, log)
    plans = faults.plans(given, _NEAR)
    begins = faults.begins(given, plans)
    works = faults.works(given, plans, begins, MOST_KEPT)
    books = handbook.Handbooks(given, works.__getitem__)
    shown = faults.specs(given, works, books.make_ready)
    pages = tuple(_each(given, begins, books, shown))
    return Catalogue(pages=pages, files=tuple(faults.files(given, shown)), log=log, index=given.index)


def _each(
    given: Given,
    begins: Mapping[str, FirstStep | None],
    books: handbook.Handbooks,
    shown: Mapping[str, PageSpec],
) -> Iterator[Planned]:
    index = given.index
    yield from _only(given)
    yield from faults.pages(given, shown)
    yield from code.pages(index, begins)
    yield from model.pages(index, books.sizes)
    yield from model_year.pages(index, books.sizes)
    yield from books.pages()
    yield from values.pages(index)
    yield from system.pages(index)
    yield from component.pages(index)
    yield from moved.pages(index)
    yield from rule.pages(lambda: given.rules)


def _only(given: Given) -> Iterator[Planned]:
    """The pages of which there is one each."""
    index = given.index
    makers: Sequence[tuple[str, str, Callable[[], Iterator[PageSpec]], bool]] = (
        (addresses.HOME, "home", lambda: home.pages(index), True),
        (addresses.SEVERAL, "several", lambda: several.pages(index), True),
        (addresses.MY_BIKE, "my-bike", lambda: my_bike.pages(index), False),
        (addresses.REPORT, "report", lambda: report_form.pages(index), True),
        (addresses.FIGURES, "figures", lambda: figures.pages(index, given.replayed), True),
        (addresses.MECHANICS, "mechanics", lambda: mechanics.pages(index), True),
        (addresses.COVERAGE, "coverage", lambda: coverage.pages(index, given.today), True),
        (addresses.NEW, "new", lambda: new.pages(index, given.today, given.told, given.turned), True),
        (addresses.DATA, "data", lambda: data.pages(index), True),
        (addresses.AGENDA, "agenda", lambda: agenda.pages(index, given.jobs), False),
    )
    for address, kind, make, listed in makers:
        yield Planned(address=address, kind=kind, make=partial(_first, make), listed=listed)


def _first(pages: Callable[[], Iterator[PageSpec]]) -> PageSpec:
    return next(pages())


def collisions(pages: Iterable[Planned | PageSpec], hand_written: Iterable[tuple[str, str]] = ()) -> list[Collision]:
    """The addresses that more than one page claims; upper and lower case are one, as they are on many file systems.

    `hand_written` are pairs of address and path of the club's own pages, without the one that stands on the home page.
    """
    claims: dict[str, list[tuple[str, Planned | PageSpec | str]]] = {}
    for address, name in (*((page.address, page) for page in pages), *hand_written):
        claims.setdefault(address.casefold(), []).append((address, name))
    return [
        Collision(address=own[0][0], titles=tuple(_title(claim) for _, claim in own))
        for own in claims.values()
        if len(own) > 1
    ]


def _title(claim: Planned | PageSpec | str) -> str:
    if isinstance(claim, str):
        return claim
    return claim.title if isinstance(claim, PageSpec) else claim.make().title
