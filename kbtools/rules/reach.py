"""Which machines two entries have in common: what the rules of family KB6 compare contradicting entries by."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import AppliesTo, Fault
from kbtools.model.years import Years
from kbtools.rules.meaning import backwards
from kbtools.rules.once import once
from kbtools.scope import held_years


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """Some years of one model."""

    years: Years
    """Within those of the model."""
    only_if: str | None
    """What the owner is asked, as written."""


Reach = Mapping[str, Sequence[Span]]
"""Model id → the years that an entry concerns. Rows that name nothing or run backwards are left out."""


@once
def reaches(base: KnowledgeBase) -> Mapping[str, Reach]:
    """Fault id → whom it concerns, of every published fault."""
    return {fault.id: reach(base, fault.applies_to) for fault in published(base)}


def published(base: KnowledgeBase) -> Iterator[Fault]:
    """The faults that are advice on the site."""
    return (fault for fault in base.faults.values() if fault.published)


def reach(base: KnowledgeBase, rows: Sequence[AppliesTo]) -> Reach:
    """Whom rows of models and years concern."""
    found: dict[str, list[Span]] = {}
    for row in rows:
        model = base.models.get(row.model)
        if model is None or backwards(row.years) or backwards(model.years):
            continue
        held = held_years(row, model)
        cut = None if held is None else held.cut_to(model.years)
        if cut is not None:
            found.setdefault(model.id, []).append(Span(years=cut, only_if=row.only_if))
    return found


def narrowed(base: KnowledgeBase, of: Reach, unit_id: str | None) -> Reach:
    """Whom a code of a control unit concerns: the models that have the unit, in the years in which it is fitted."""
    if unit_id is None:
        return of
    found: dict[str, list[Span]] = {}
    for model_id, spans in of.items():
        unit = base.models[model_id].unit(unit_id)
        if unit is None or backwards(unit.years):
            continue
        cut = [(span, span.years.cut_to(unit.years)) for span in spans]
        found[model_id] = [Span(years=years, only_if=span.only_if) for span, years in cut if years is not None]
    return found


def shared(left: Reach, right: Reach) -> tuple[str, Years] | None:
    """A model and years that both concern, the first there is; None where there are none.

    Rows with different questions for the owner may mean different machines of one year, so they share nothing.
    """
    for model_id, spans in left.items():
        for span in spans:
            for other in right.get(model_id, ()):
                years = span.years.cut_to(other.years)
                if years is not None and None not in {span.only_if, other.only_if} and span.only_if != other.only_if:
                    continue
                if years is not None:
                    return model_id, years
    return None
