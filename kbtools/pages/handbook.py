"""Handbooks: all about a model, or one of its years, on one page made for paper.

A fault has one number in all handbooks of a model. A model with more than `MOST` faults has a part for each system at
the top of the tree, and the handbooks of its years list what concerns them and lead to the parts. So do those of all
years of a large base (`MOST_CARDS`): whole cards on each of them would weigh more than all the rest of the site.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Final

from kbtools.index.answers import Index, Listed
from kbtools.index.asked import Derived, Shared
from kbtools.index.asked_base import Log
from kbtools.index.entries import has_page
from kbtools.model.catalogue import Model
from kbtools.pages import crumbs
from kbtools.pages.fault import SAFETY_FILE
from kbtools.pages.first_looks import LooksView, looks_view
from kbtools.pages.handbook_cards import MOST_KEPT, Cards, CardView, Pages
from kbtools.pages.handbook_lists import Ref, codes_index, notice_rows, signs_index, values_table
from kbtools.pages.handbook_size import Size, Weight, size_of, weight_of
from kbtools.pages.lines import Line, Link, all_listed, by_system
from kbtools.pages.planned import LAST, Given, Planned
from kbtools.pages.spec import Crumb, PageSpec, Section
from kbtools.wording import addresses
from kbtools.wording.labels import count_of

MOST: Final = 120
"""Faults of a model whose handbook is one page; the sheets of more would be a folder, not a handbook."""
MOST_CARDS: Final = MOST_KEPT
"""Cards in the handbooks of all years together, some 20 MB; with more, the years lead to the handbooks of models."""
_NEAR: Final = 2
"""Handbooks that are kept: each is made right before or after the page that says how large it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A fault in a handbook: its card, or where the card stands."""

    ref: Ref
    """Its number, and where its card is."""
    line: Line
    """Title, ride advice, codes."""
    card: CardView | None
    """Its card; None where a part of the model's handbook has it."""
    weight: Weight
    """What the card weighs; nothing of none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """The faults of a system."""

    title: str
    """Plain text."""
    above: tuple[str, ...]
    """Names of the systems above it, from the top."""
    top: str
    """Id of the system at the top."""
    entries: tuple[Entry, ...]
    """In the order of the files."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part of a large model's handbook."""

    link: Link
    """Its page."""
    faults: int
    """How many it has."""


_Key = tuple[str, int | None, str | None]
"""Model, year and part; None: all of them."""


class Handbooks:
    """The handbooks of all models and of all their years."""

    def __init__(self, given: Given, faults: Pages) -> None:
        """`faults` is what the faults' own pages show."""
        self._given = given
        index, log = given.index, given.log
        self._cards = Cards(index, faults, log)
        self._lines: dict[str, dict[str, Line]] = {}
        self._numbers = Derived("numbers in handbooks", partial(numbers, index), log)
        self._tops = Derived("parts of a handbook", partial(_tops, index), log)
        self._of_part = Derived("faults of a part", partial(_of_part, index), log)
        self._whole = Derived("handbooks of years are whole", partial(_years_whole, index), log)
        self._made = Shared(self._page, log, _NEAR)
        self.sizes: Mapping[str, Size] = Derived("sizes of handbooks", self._size, log)
        """About how large a handbook is, by its address."""

    def pages(self) -> Iterator[Planned]:
        """All of them."""
        for key in self._keys():
            model, year, part = key
            yield Planned(
                address=addresses.handbook(*key),
                kind="handbook",
                make=partial(self._made.__getitem__, key),
                listed=False,
                group=part or "",
                member=LAST if part else _beside(model, year),
            )

    def make_ready(self, fault_id: str) -> None:
        """Make the cards of a fault in the handbooks of its models, while what they are made from is at hand."""
        index = self._given.index
        # None of it counts for the page at hand.
        with self._given.log.listening():
            for model in index.scopes[fault_id]:
                number = self._numbers[model].get(fault_id)
                # Without a system that there is, it stands in no handbook.
                if number is not None:
                    self._cards.card(index.published[fault_id], number, index.base.models[model], None, ())

    def _page(self, key: _Key) -> PageSpec:
        model, year, part = key
        book = self._book(model)
        return book.page(year) if part is None else book.part(part, self._of_part[model, part])

    def _keys(self) -> Iterator[_Key]:
        index = self._given.index
        for model in index.base.models:
            yield model, None, None
            if len(self._numbers[model]) > MOST:
                yield from ((model, None, top) for top in self._tops[model])
            yield from ((model, year, None) for year in index.years[model])

    def _book(self, model: str) -> _Book:
        return _Book(
            self._given.index.base.models[model],
            self._given.index,
            self._given.today,
            self._cards,
            self._numbers[model],
            self._lines.setdefault(model, {}),
            years_whole=self._whole[""],
        )

    def _size(self, address: str) -> Size:
        key = next(key for key in self._keys() if addresses.handbook(*key) == address)
        size = self._made[key].context["size"]
        if not isinstance(size, Size):
            raise TypeError(f"the handbook at {address} does not say how large it is")
        return size


def _beside(model: str, year: int | None) -> str:
    """The page that says how large the handbook is: the two are made together."""
    return addresses.model(model) if year is None else addresses.model_year(model, year)


def page_of(model: Model, year: int | None, index: Index, today: dt.date, faults: Pages) -> PageSpec:
    """One handbook whole, however many faults it has: what is printed has no parts."""
    return _Book(model, index, today, Cards(index, faults, Log()), numbers(index, model.id), {}, most=None).page(year)


def numbers(index: Index, model: str) -> Mapping[str, int]:
    """Id of a fault → its number in all handbooks of a model."""
    groups = by_system(all_listed(index.faults_by_model.get(model, ())), index, index.base.models[model])
    return {line.id: number for number, line in enumerate((each for group in groups for each in group.lines), 1)}


def _tops(index: Index, model: str) -> tuple[str, ...]:
    """The systems at the top of the tree that have faults of a model, in the order of the tree."""
    there = {index.paths[each.system][0].id for each in index.faults_by_model.get(model, ()) if each.system}
    return tuple(each for each in index.base.systems if each in there)


def _of_part(index: Index, key: tuple[str, str]) -> tuple[str, ...]:
    """The faults of a model below a system at the top."""
    model, top = key
    faults = index.faults_by_model.get(model, ())
    return tuple(each.id for each in faults if each.system and index.paths[each.system][0].id == top)


def _years_whole(index: Index, _: str) -> bool:
    return sum(map(len, index.faults_by_model_year.values())) <= MOST_CARDS


class _Book:
    """The handbooks of one model."""

    def __init__(  # noqa: PLR0913, PLR0917 - what all its pages are made from
        self,
        model: Model,
        index: Index,
        today: dt.date,
        cards: Cards,
        number: Mapping[str, int],
        lines: dict[str, Line],
        *,
        most: int | None = MOST,
        years_whole: bool = True,
    ) -> None:
        self._model = model
        self._index = index
        self._today = today
        self._cards = cards
        self._number = number
        # They follow from the model and the faults alone, for which each handbook asks itself.
        self._lines = lines
        self._in_parts = most is not None and len(self._number) > most
        self._years_whole = years_whole and not self._in_parts

    def part(self, top: str, faults: Iterable[str]) -> PageSpec:
        """The part of the model's handbook about a system at the top."""
        index = self._index
        listed = all_listed(index.published[each] for each in faults)
        return self._page(None, self._groups(None, listed, cards=True), top)

    def page(self, year: int | None) -> PageSpec:
        """The handbook of the model, or of one of its years."""
        if year is None:
            listed: Sequence[Listed] = all_listed(self._index.faults_by_model.get(self._model.id, ()))
        else:
            listed = self._index.faults_by_model_year.get((self._model.id, year), ())
        whole = not self._in_parts if year is None else self._years_whole
        return self._page(year, self._groups(year, listed, cards=whole), None)

    def _groups(self, year: int | None, listed: Sequence[Listed], *, cards: bool) -> list[Group]:
        asked = {each.fault.id: each.questions for each in listed}
        found = []
        index = self._index
        for group in by_system(listed, index, self._model, self._lines):
            system = group.address.removeprefix(addresses.SYSTEMS).rstrip("/")
            top = index.paths[system][0].id
            entries = []
            for line in group.lines:
                number = self._number[line.id]
                fault = index.published[line.id]
                card, weight = (
                    self._cards.card(fault, number, self._model, year, asked[line.id]) if cards else (None, (0, 0))
                )
                page = "" if cards else addresses.handbook(self._model.id, None, top if self._in_parts else None)
                entries.append(
                    Entry(
                        ref=Ref(number=f"F{number}", page=page, anchor=f"f{number}"),
                        line=line,
                        card=card,
                        weight=weight,
                    )
                )
            found.append(Group(title=group.title, above=group.above, top=top, entries=tuple(entries)))
        return found

    def _page(self, year: int | None, groups: Sequence[Group], part: str | None) -> PageSpec:
        model, index = self._model, self._index
        name = model.name if year is None else f"{model.name}, {year}"
        of_part = index.base.systems[part].name if part is not None else None
        entries = [entry for group in groups for entry in group.entries]
        refs = {entry.line.id: entry.ref for entry in entries}
        shown = [entry.card for entry in entries if entry.card is not None]
        looks = self._looks(groups)
        context: dict[str, object] = {
            "name": name,
            "part": of_part,
            "year": year,
            "club": index.club.name,
            "licence": index.club.licence,
            "on": self._today,
            "safety": addresses.SAFETY if has_page(index.base, SAFETY_FILE) else None,
            "faults": len(entries),
            "looks": looks,
            "values": () if part is not None else tuple(values_table(model, year, refs, index)),
            "notices": () if part is not None else tuple(notice_rows(model, year, refs, index)),
            "parts": self._parts(groups) if self._in_parts and year is None and part is None else (),
            "whole": Link(address=addresses.handbook(model.id), title=model.name) if part or year is not None else None,
            "cautions": self._cautions(shown, looks),
            "codes": codes_index(entries_of(entries, index), refs, model),
            "signs": signs_index(entries_of(entries, index), refs) if shown else (),
            "back": Link(
                address=addresses.model(model.id) if year is None else addresses.model_year(model.id, year), title=name
            ),
        }
        lists = weight_of(tuple(context.values()))
        lines = () if shown else (weight_of(tuple(groups)),)
        size = size_of((lists, *lines, *(entry.weight for entry in entries)))
        title = f"Handbook: {name}" if of_part is None else f"Handbook: {name}, {of_part}"
        above = () if year is None else (Crumb(address=addresses.model_year(model.id, year), title=str(year)),)
        return PageSpec(
            address=addresses.handbook(model.id, year, part),
            kind="handbook",
            title=title,
            description=f"{name}: {count_of(len(entries), 'known fault')}, recalls, test values and first steps, made "
            "for paper.",
            context={**context, "groups": tuple(groups), "size": size},
            edit_path=model.path,
            crumbs=(crumbs.HOME_CRUMB, crumbs.MODELS_CRUMB, crumbs.model_crumb(model), *above),
            sections=tuple(_sections(context)),
            listed=False,
        )

    def _looks(self, groups: Iterable[Group]) -> LooksView | None:
        """What is looked at first, whatever it is, of the systems that the handbook is about."""
        tops = {group.top for group in groups}
        systems = [each for each, path in self._index.paths.items() if path[0].id in tops]
        view = looks_view(systems, self._index) if systems else None
        if view is None:
            return None
        here = addresses.model(self._model.id)
        rows = tuple(
            replace(row, exceptions=tuple(each for each in row.exceptions if each.model.address == here))
            for row in view.rows
        )
        return replace(view, rows=rows)

    def _parts(self, groups: Iterable[Group]) -> tuple[Part, ...]:
        faults: dict[str, int] = {}
        for group in groups:
            faults[group.top] = faults.get(group.top, 0) + len(group.entries)
        return tuple(
            Part(
                link=Link(
                    address=addresses.handbook(self._model.id, None, top), title=self._index.base.systems[top].name
                ),
                faults=number,
            )
            for top, number in faults.items()
        )

    def _cautions(self, cards: Iterable[CardView], looks: LooksView | None) -> tuple[tuple[str, str], ...]:
        """The cautions that the cards name, and those of what is looked at first, in full; pairs of number and text."""
        named = {mark.number for card in cards for mark in card.cautions}
        looked = {text for row in looks.rows for text in row.cautions} if looks is not None else set()
        numbered = ((f"C{place}", each.text) for place, each in enumerate(self._index.base.cautions.values(), start=1))
        return tuple((number, text) for number, text in numbered if number in named or text in looked)


def entries_of(entries: Iterable[Entry], index: Index) -> list[Listed]:
    """The faults of the entries, as lists have them."""
    return all_listed(index.published[entry.line.id] for entry in entries)


def _sections(context: dict[str, object]) -> Iterator[Section]:
    """In the order of the sheets."""
    if context["cautions"]:
        yield Section(id="cautions", title="Before you begin")
    if context["notices"]:
        yield Section(id="notices", title="Recalls and bulletins")
    if context["looks"] is not None:
        yield Section(id="looks", title="Look at these first")
    if context["values"]:
        yield Section(id="values", title="Test values")
    yield Section(id="faults", title="Known faults by system")
    if context["codes"]:
        yield Section(id="codes", title="Index of codes")
    if context["signs"]:
        yield Section(id="signs", title="Index of what one notices")
