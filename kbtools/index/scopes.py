"""Whom an entry concerns: rows of models and years, with the control unit that must be fitted.

A question for the owner (`only_if`) narrows an entry in words only. It is carried along, and never computed with.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Model
from kbtools.model.fault import AppliesTo, CodeRow, Fault, Source
from kbtools.model.years import Years, last_built

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
    return _merged([row.only_if for row in rows if row.model == model and row_holds(row, known, year)])


def row_holds(row: AppliesTo, model: Model, year: int) -> bool:
    """Whether a row about this model holds for the model year."""
    held = held_years(row, model)
    return held is not None and held.holds(year)


def held_years(row: AppliesTo, model: Model) -> Years | None:
    """The years that a row about this model holds: its own, and those in which the unit that it names is fitted."""
    if row.unit is None:
        return row.years
    unit = model.unit(row.unit)
    return None if unit is None else row.years.cut_to(unit.years)


def built_years(row: AppliesTo, model: Model) -> Years | None:
    """As `held_years`, cut to the years in which the model was built; None where none are left."""
    held = held_years(row, model)
    return None if held is None else held.cut_to(model.years)


def can_report(row: CodeRow, model: Model) -> bool:
    """Whether one of the model's control units can report the code: a row without a unit leaves that open."""
    return row.unit is None or model.unit(row.unit) is not None


def rows_of(fault: Fault) -> Iterator[AppliesTo]:
    """Every row of a fault that names a model: its own, those of its causes and those of its sources."""
    yield from fault.applies_to
    for cause in fault.causes:
        yield from cause.applies_to
    for source in fault.sources:
        yield from source.applies_to


def covered_rows(source: Source, fault: Fault) -> tuple[AppliesTo, ...]:
    """Whom a recall or bulletin covers: what its issuer says, whatever the entry knows of, else what the entry says."""
    return source.applies_to or fault.applies_to


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
    found = {model_id: _by_year(own, models[model_id], years[model_id]) for model_id, own in by_model.items()}
    return {model_id: each for model_id, each in found.items() if each}


def _by_year(rows: Sequence[AppliesTo], model: Model, years: Sequence[int]) -> dict[int, Questions]:
    """The years that any row holds, with what is asked; the rows' ends are worked out once, not for each year."""
    spans = [(held, row.only_if) for row in rows if (held := held_years(row, model)) is not None]
    if len(spans) == 1:
        (held, asked), *_ = spans
        questions: Questions = () if asked is None else (asked,)
        return {year: questions for year in years if held.holds(year)}
    merged = ((year, _merged([asked for held, asked in spans if held.holds(year)])) for year in years)
    return {year: each for year, each in merged if each is not None}


class Scopes:
    """`scope` for many entries: the same rows stand in many of them, and are gone through once."""

    __slots__ = ("_known", "_models", "_years")

    def __init__(self, models: Mapping[str, Model], years: Mapping[str, Sequence[int]]) -> None:
        self._models = models
        self._years = years
        self._known: dict[tuple[tuple[str, Years, str | None, str | None], ...], Scope] = {}

    def of(self, rows: Sequence[AppliesTo]) -> Scope:
        """The scope of an entry with these rows. It is shared, and not to be changed."""
        key = tuple((row.model, row.years, row.unit, row.only_if) for row in rows)
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = scope(rows, self._models, self._years)
        return found


def _merged(asked: Sequence[str | None]) -> Questions | None:
    """The questions of the rows that hold; a row without a question makes the others' needless. None of no row."""
    if not asked:
        return None
    return () if None in asked else tuple(dict.fromkeys(each for each in asked if each is not None))
