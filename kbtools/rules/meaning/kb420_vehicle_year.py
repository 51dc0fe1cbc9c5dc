"""KB420: model year that there is not."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.built import outside
from kbtools.index.entries import cases
from kbtools.model.base import KnowledgeBase
from kbtools.model.years import Years, built_text
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, today: dt.date) -> Iterator[Breach]:
    """Cases about bikes that were not built."""
    for case in cases(base):
        model, year = base.models.get(case.vehicle.model or ""), case.vehicle.year
        if model is not None and year is not None and outside(Years(first=year, last=year), model, today):
            message = f"There is no {short(model.name)} of the model year {year}."
            hint = f"It was built {built_text(model.years)}."
            yield Breach(path=case.path, pointer="/vehicle/year", message=message, hint=hint)


RULE = Rule(
    code="KB420",
    title="Model year that there is not",
    severity="error",
    what="A case about a bike of a model year in which its model was not built.",
    why="The year or the model is mistyped, and the case would count for a bike that does not exist.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="year: 2005",
        bad="year: 2015",
        good="year: 2005",
    ),
    alone="this day",
    check=check,
)
