"""KB401: years outside the model's."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.built import outside
from kbtools.index.entries import faults
from kbtools.index.scopes import rows_of
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Model
from kbtools.model.shared import SHARED_PATH
from kbtools.model.years import Years, built_text
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, today: dt.date) -> Iterator[Breach]:
    """Years of rows and of control units that the model does not have."""
    for fault in faults(base):
        for row in rows_of(fault):
            model = base.models.get(row.model)
            if model is not None and outside(row.years, model, today):
                yield _found(row.years, model, fault.path, row.at)
    for shared in base.checks.values():
        for other in shared.check.good_for:
            model = base.models.get(other.model)
            if model is not None and outside(other.years, model, today):
                yield _found(other.years, model, SHARED_PATH, other.at)
    for model in base.models.values():
        for unit in model.control_units:
            if outside(unit.years, model, today):
                yield _found(unit.years, model, model.path, unit.at)


def _found(years: Years, model: Model, path: str, row: str) -> Breach:
    message = f"The {short(model.name)} was not built in all of the years {years.text}."
    hint = f"It was built {built_text(model.years)}; write years within these, or `all`."
    return Breach(path=path, pointer=f"{row}/years", message=message, hint=hint)


RULE = Rule(
    code="KB401",
    title="Years outside the model's own",
    severity="error",
    what=(
        "Years, of a row or of a control unit, in some of which the model was not built. An open end "
        "(`2010-`) says that it is still built."
    ),
    why=(
        "Nobody has such a bike, so either the years or the model is wrong, and owners of the right one miss the entry."
    ),
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="years: 2003-2007, unit: engine-a",
        bad="years: 2001-2007, unit: engine-a",
        good="years: 2003-2007, unit: engine-a",
    ),
    alone="this day",
    check=check,
)
