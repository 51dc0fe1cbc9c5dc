"""Faults as lines in the lists of other pages, and the groups that such lists are made of."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from kbtools.index.answers import Index, Listed
from kbtools.index.scopes import Questions, can_report
from kbtools.model.catalogue import Model
from kbtools.model.fault import CodeRow, Fault
from kbtools.model.ride_advice import RideLevel, strictest
from kbtools.pages.whom import whom
from kbtools.wording import addresses
from kbtools.wording.labels import RIDE, RideWords


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A page to go to."""

    address: str
    """From the site's root."""
    title: str
    """Plain text, hostile until escaped."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A fault in a list."""

    id: str
    """Id of the fault."""
    address: str
    """Its page."""
    title: str
    """Plain text, hostile until escaped."""
    ride: RideWords
    """May I ride it."""
    codes: tuple[str, ...]
    """Its codes, plain text, follow-on ones left out."""
    questions: Questions
    """What the owner must ask first, Markdown; empty: nothing."""
    whom: str = ""
    """Whom it concerns, for the page's scripts (`kbtools/pages/whom.py`); empty where the whole page says it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Lines under a heading."""

    title: str
    """Plain text, hostile until escaped."""
    address: str
    """The page that the heading links to."""
    above: tuple[str, ...]
    """Names of the systems above a system, from the top; empty for anything else."""
    lines: tuple[Line, ...]
    """In the order of the files."""


def ride_words(level: RideLevel | None) -> RideWords:
    """A level in words; None is "not known"."""
    return RIDE[level]


def strictest_of(faults: Iterable[Fault]) -> RideWords:
    """The strictest advice of several entries, in words; "not known" of none."""
    levels = [fault.ride_level for fault in faults if fault.ride_level is not None]
    return RIDE[strictest(levels)]


def line(fault: Fault, questions: Questions = (), on: Model | None = None, *, whom: str = "") -> Line:
    """A fault as a line; on one model's pages only the codes that its control units can report."""
    return Line(
        id=fault.id,
        address=addresses.fault(fault.id),
        title=fault.title,
        ride=RIDE[fault.ride_level],
        codes=tuple(
            dict.fromkeys(match.text for row in _rows(fault, on) if not row.follow_on for match in row.read.matches)
        ),
        questions=questions,
        whom=whom,
    )


def _rows(fault: Fault, on: Model | None) -> list[CodeRow]:
    return [row for row in fault.codes if on is None or can_report(row, on)]


def by_system(
    listed: Sequence[Listed], index: Index, on: Model | None = None, known_lines: dict[str, Line] | None = None
) -> tuple[Group, ...]:
    """The faults under their systems, in the order of the tree of systems; `on` as for `line`.

    `known_lines` keeps the lines without questions by the fault's id, for lists that show the same faults of one model.
    """
    kept: dict[str, Line] = {} if known_lines is None else known_lines
    groups: dict[str, list[Line]] = {}
    for each in listed:
        shown = kept.get(each.fault.id) if not each.questions else None
        if shown is None:
            shown = line(each.fault, each.questions, on, whom=whom(each.fault, index) if on is None else "")
            if not each.questions:
                kept[each.fault.id] = shown
        groups.setdefault(each.fault.system or "", []).append(shown)
    order = {system: place for place, system in enumerate(index.base.systems)}
    known = sorted((system for system in groups if system in order), key=order.__getitem__)
    return tuple(
        Group(
            title=index.base.systems[system].name,
            address=addresses.system(system),
            above=tuple(each.name for each in index.paths[system][:-1]),
            lines=tuple(groups[system]),
        )
        for system in known
    )


def by_model(faults: Iterable[Fault], index: Index) -> tuple[Group, ...]:
    """The faults under the models that they concern, in the order of the models; one fault may stand under several."""
    groups: dict[str, list[Line]] = {}
    for fault in faults:
        for model in index.scopes[fault.id]:
            groups.setdefault(model, []).append(line(fault, (), index.base.models[model], whom=whom(fault, index)))
    return tuple(
        Group(title=model.name, address=addresses.model(model.id), above=(), lines=tuple(groups[model.id]))
        for model in index.base.models.values()
        if model.id in groups
    )


def all_listed(faults: Iterable[Fault]) -> list[Listed]:
    """Faults as a list without questions."""
    return [Listed(fault=fault, questions=()) for fault in faults]


def code_links(faults: Iterable[Fault], on: Model | None = None) -> tuple[Link, ...]:
    """The codes of these faults, each address once, in the order of their texts; `on` as for `line`."""
    codes = {match.slug: match.text for fault in faults for row in _rows(fault, on) for match in row.read.matches}
    return tuple(
        Link(address=addresses.code(slug), title=text) for slug, text in sorted(codes.items(), key=lambda each: each[1])
    )
