"""KB403: control unit that is not fitted in those years."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.built import fitted, outside, sound
from kbtools.index.entries import faults
from kbtools.index.scopes import held_years, rows_of
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Model
from kbtools.model.fault import AppliesTo, Fault
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, today: dt.date) -> Iterator[Breach]:
    """Control units that are fitted in none of the years in question."""
    for fault in faults(base):
        for row in rows_of(fault):
            model = base.models.get(row.model)
            if model is None or row.unit is None or outside(row.years, model, today):
                continue
            if not fitted(model, row.unit, row.years):
                message = f'The {short(model.name)} does not have the control unit "{row.unit}" in {row.years.text}.'
                yield Breach(path=fault.path, pointer=f"{row.at}/unit", message=message, hint=_hint(model, row.unit))
        # A row that is wrong already says nothing of the entry's years.
        if fault.intact("/applies_to") and all(sound(row, base, today) for row in fault.applies_to):
            yield from _of_codes(base, fault)


def _of_codes(base: KnowledgeBase, fault: Fault) -> Iterator[Breach]:
    rows = [(row, base.models[row.model]) for row in fault.applies_to]
    for code in fault.codes:
        unit = code.unit
        having = [(row, model) for row, model in rows if unit is not None and model.unit(unit) is not None]
        if unit is not None and having and not any(_meets(row, model, unit) for row, model in having):
            message = f'None of the bikes that this entry names has the control unit "{unit}".'
            yield Breach(path=fault.path, pointer=f"{code.at}/unit", message=message, hint=_hint(having[0][1], unit))


def _meets(row: AppliesTo, model: Model, unit: str) -> bool:
    years = held_years(row, model)
    return years is not None and fitted(model, unit, years)


def _hint(model: Model, unit_id: str) -> str:
    unit = model.unit(unit_id)
    years = "" if unit is None else unit.years.text
    return f"On the {short(model.name)} it is fitted in: {years}."


RULE = Rule(
    code="KB403",
    title="Control unit not fitted in those years",
    severity="error",
    what=(
        "A control unit that the model has, but in none of the years that its row names; of a code, in none "
        "of the entry's."
    ),
    why="The entry, or the code, would show for no bike at all.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="years: 2003-2007, unit: engine-a",
        bad="years: 2008-2012, unit: engine-a",
        good="years: 2003-2007, unit: engine-a",
    ),
    alone="this day",
    check=check,
)
