"""In which years a model was built and its control units were fitted, and which rows of an entry go beyond that.

The rules ask, of entries that may be wrong: what cannot be told is taken to be right, since another rule reports it.
"""

from __future__ import annotations

import datetime as dt

from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Model
from kbtools.model.fault import AppliesTo
from kbtools.model.years import Years, backwards, last_built


def outside(years: Years, model: Model, today: dt.date) -> bool:
    """Whether some of these years are none of the model's.

    `all` and an open first year stand for the model's own; an open last year says that the model is still built. Years
    that run backwards, of either, lie outside nothing.
    """
    built = model.years
    if backwards(years) or backwards(built):
        return False
    return _begins_outside(years, built) or _ends_outside(years, built, today)


def _begins_outside(years: Years, built: Years) -> bool:
    if built.first is None:
        return False
    return any(year is not None and year < built.first for year in (years.first, years.last))


def _ends_outside(years: Years, built: Years, today: dt.date) -> bool:
    last = built.last
    if last is None:
        # A model that is announced for later years than the next has at least its first one.
        last = max(last_built(today.year), built.first or 0)
    elif years.first is not None and years.last is None:
        return True
    return any(year is not None and year > last for year in (years.first, years.last))


def fitted(model: Model, unit_id: str, years: Years) -> bool:
    """Whether a control unit is fitted in one of these years of the model.

    True as well where that cannot be told: the model has no such unit, or two, or some of the years run backwards.
    """
    unit = model.unit(unit_id)
    if unit is None or _doubled(model, unit_id) or any(backwards(each) for each in (years, model.years, unit.years)):
        return True
    cut = years.cut_to(model.years)
    return cut is None or cut.cut_to(unit.years) is not None


def _doubled(model: Model, unit_id: str) -> bool:
    """Whether the model lists the unit twice; KB312 says so, and which years are meant is open."""
    return sum(each.id == unit_id for each in model.control_units) > 1


def sound(row: AppliesTo, base: KnowledgeBase, today: dt.date) -> bool:
    """Whether nothing is wrong with a row of models and years that another rule reports."""
    model = base.models.get(row.model)
    if model is None or backwards(row.years) or backwards(model.years) or outside(row.years, model, today):
        return False
    if row.unit is None:
        return True
    unit = model.unit(row.unit)
    if _doubled(model, row.unit):
        return False
    return unit is not None and not backwards(unit.years) and fitted(model, row.unit, row.years)
