"""KB440: model years that no model has."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Model
from kbtools.model.years import backwards, last_built
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short

_LONGEST = 100
"""Years, both ends included."""
_AHEAD = 1
"""Years beyond the last that is built today: what is announced may be written down."""


def check(base: KnowledgeBase, today: dt.date) -> Iterator[Breach]:
    """Models whose years go too far ahead, or are too many."""
    newest = last_built(today.year) + _AHEAD
    for model in base.models.values():
        if not backwards(model.years):
            yield from _of(model, newest)


def _of(model: Model, newest: int) -> Iterator[Breach]:
    first, last = model.years.first, model.years.last
    if max(first or 0, last or 0) > newest:
        message = f"The years {model.years.text} go beyond {newest}."
        hint = "Nobody rides such a machine yet; correct the year, or write 2010- where it is still built."
    elif first is not None and (last or newest - _AHEAD) - first >= _LONGEST:
        message = f"The {short(model.name)} would have been built for more than {_LONGEST} years."
        hint = "Each model year gets a page of its own. If it was built so long, make a model of each generation."
    else:
        return
    yield Breach(path=model.path, pointer="/years", message=message, hint=hint)


RULE = Rule(
    code="KB440",
    title="Model years that no model has",
    severity="error",
    what=f"Years of a model that go beyond the year after next, or that are more than {_LONGEST}.",
    why="Each model year has a page; hundreds of years that were never built would bury those that were.",
    sample=Sample(
        path="models/wren-400.yml",
        instead_of="name: Wren 400\nyears: 2003-2012",
        bad="name: Wren 400\nyears: 1903-2012",
        good="name: Wren 400\nyears: 2003-2012",
    ),
    check=check,
)
