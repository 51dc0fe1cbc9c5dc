"""Whom an entry concerns: rows of models and years, with the control unit that must be fitted.

A question for the owner (`only_if`) narrows an entry in words only. It is carried along, and never computed with.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Model
from kbtools.model.fault import AppliesTo, CodeRow
from kbtools.model.years import last_built

Questions = tuple[str, ...]
"""Questions for the owner (Markdown), one of which must be answered with yes; empty: it applies without a question."""

Scope = Mapping[str, Mapping[int, Questions]]
"""Model id → model year → questions: every model year that an entry concerns, in the order of its rows."""


def applies(rows: Iterable[AppliesTo], model: str, year: int, base: KnowledgeBase) -> bool:
    """Whether an entry with these rows applies to a machine, leaving its questions aside.

    It does if one of the rows names the model, its years hold the year and, where it names a control unit, that unit
    is fitted in that year. A row with a model or a control unit that does not exist applies to nothing.
    """
    known = base.models.get(model)
    return known is not None and any(row.model == model and row_holds(row, known, year) for row in rows)


def questions(rows: Iterable[AppliesTo], model: str, year: int, base: KnowledgeBase) -> Questions | None:
    """What to ask the owner of such a machine before the entry can be said to apply; None where it does not apply."""
    known = base.models.get(model)
    if known is None:
        return None
    return _merged([row for row in rows if row.model == model and row_holds(row, known, year)])


def row_holds(row: AppliesTo, model: Model, year: int) -> bool:
    """Whether a row about this model holds for the model year."""
    if not row.years.holds(year):
        return False
    if row.unit is None:
        return True
    unit = model.unit(row.unit)
    return unit is not None and unit.years.holds(year)


def can_report(row: CodeRow, model: Model) -> bool:
    """Whether one of the model's control units can report the code: a row without a unit leaves that open."""
    return row.unit is None or model.unit(row.unit) is not None


def model_years(model: Model, this_year: int) -> tuple[int, ...]:
    """The model years in which a model was built, in order; one that is still built has next year's too.

    Empty where its first year is not known: there is nothing to count from.
    """
    if model.years.first is None:
        return ()
    return tuple(model.years.each(until=last_built(this_year)))


def scope(rows: Sequence[AppliesTo], models: Mapping[str, Model], years: Mapping[str, Sequence[int]]) -> Scope:
    """Every model year that an entry with these rows concerns, out of the `years` in which each model was built."""
    by_model: dict[str, list[AppliesTo]] = {}
    for row in rows:
        if row.model in models:
            by_model.setdefault(row.model, []).append(row)
    found: dict[str, dict[int, Questions]] = {}
    for model_id, own in by_model.items():
        model = models[model_id]
        asked = ((year, _merged([row for row in own if row_holds(row, model, year)])) for year in years[model_id])
        found[model_id] = {year: each for year, each in asked if each is not None}
    return {model_id: each for model_id, each in found.items() if each}


def _merged(rows: Sequence[AppliesTo]) -> Questions | None:
    """The questions of the rows that hold; a row without a question makes the others' needless. None of no row."""
    if not rows:
        return None
    asked = [row.only_if for row in rows]
    return () if None in asked else tuple(dict.fromkeys(each for each in asked if each is not None))
