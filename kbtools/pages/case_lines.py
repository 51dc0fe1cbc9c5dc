"""Case reports as a short list: what the machine was, how it ended, what did not help."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from kbtools.changes.by_case import Turn
from kbtools.index.answers import Index
from kbtools.model.case import UNLISTED, Case, SeenCode
from kbtools.model.fault import Fault
from kbtools.model.money import Range, show_money
from kbtools.pages.lines import Link
from kbtools.pages.turned import turned_words
from kbtools.pages.views import Anchor
from kbtools.wording import addresses
from kbtools.wording.labels import STATE, WHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseLine:
    """One case in a list."""

    case: Case
    """The report."""
    anchor: str
    """Id of its element."""
    machine: Link | None
    """The model year; None where it is not one of the model's."""
    model: str
    """Name of the model."""
    odometer: str | None
    """In the club's unit."""
    fault: Link | None
    """The fault that it turned out to be; None where nobody knows, or where it is not published."""
    state: str
    """In words."""
    cause: Anchor | None
    """The cause that was found, on the fault's page."""
    unlisted: bool
    """It was a cause that the entry does not list."""
    also: tuple[Anchor, ...]
    """Causes found beside it."""
    no_help: tuple[str, ...]
    """Summaries of the causes whose fix did not help."""
    paid: str | None
    """What was paid, and where."""
    frozen: tuple[str, ...]
    """What was stored with its codes, each with the code: `P0562: rpm 1200, battery 11.2 V`."""
    back_after: str | None
    """How far it was ridden until the cleared codes came back, in the club's unit."""
    turned: tuple[str, ...]
    """What it has turned on the fault's page, sentences; plain text."""


def case_lines(cases: Iterable[Case], index: Index, turned: Mapping[str, Turn] | None = None) -> tuple[CaseLine, ...]:
    """The cases as lines, in the order given.

    Args:
        cases: the reports.
        index: of the knowledge base.
        turned: what cases have turned, by their id; None: it is not told.
    """
    return tuple(_case_line(case, index, (turned or {}).get(case.id)) for case in cases)


def _case_line(case: Case, index: Index, turn: Turn | None) -> CaseLine:
    fault = index.entry(case.fault) if case.fault else None
    vehicle, outcome = case.vehicle, case.outcome
    model = index.base.models.get(vehicle.model or "")
    known = vehicle.year is not None and model is not None and vehicle.year in index.years[model.id]
    unit = index.club.distance_unit
    return CaseLine(
        case=case,
        anchor=f"case-{case.id}",
        machine=Link(address=addresses.model_year(model.id, vehicle.year), title=f"{model.name}, {vehicle.year}")
        if known and model is not None and vehicle.year is not None
        else None,
        model=model.name if model is not None else "",
        odometer=vehicle.odometer.shown_in(unit).text if vehicle.odometer is not None else None,
        fault=Link(address=addresses.fault(fault.id), title=fault.title) if fault is not None else None,
        state=STATE[outcome.state or "open"],
        cause=_cause(outcome.cause, fault),
        unlisted=outcome.cause == UNLISTED,
        also=tuple(anchor for each in outcome.also if (anchor := _cause(each, fault)) is not None),
        no_help=_no_help(case, fault),
        paid=_paid(case, index),
        frozen=tuple(_frozen(each) for each in case.codes if each.freeze_frame),
        back_after=case.cleared.back_after.shown_in(unit).text
        if case.cleared is not None and case.cleared.back_after is not None
        else None,
        turned=turned_words(turn, fault),
    )


def _frozen(seen: SeenCode) -> str:
    code = seen.read.code.text if seen.read.code is not None else seen.read.text
    values = (f"{name} {value}".replace("_", " ") for name, value in seen.freeze_frame)
    return f"{code}: {', '.join(values)}"


def _cause(cause_id: str | None, fault: Fault | None) -> Anchor | None:
    cause = fault.cause(cause_id) if fault is not None and cause_id is not None else None
    return Anchor(id=f"cause-{cause.id}", title=cause.summary or cause.id) if cause is not None else None


def _no_help(case: Case, fault: Fault | None) -> tuple[str, ...]:
    tried = (_cause(each.fix, fault) for each in case.tried if each.result in {"no-change", "worse"})
    return tuple(each.title for each in tried if each is not None)


def _paid(case: Case, index: Index) -> str | None:
    paid = case.outcome.paid
    if paid is None or (paid.parts is None and paid.labour is None):
        return None
    total = (paid.parts or 0) + (paid.labour or 0)
    amount = show_money(Range(low=total, high=total), index.club.currency)
    return f"{amount} {WHERE[paid.where]}" if paid.where is not None else amount
