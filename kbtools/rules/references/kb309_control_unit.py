"""KB309: unknown control unit."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.index.scopes import rows_of
from kbtools.model.base import KnowledgeBase
from kbtools.rules.references.named import missing
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Control units that no model has to which the entry applies."""
    for fault in faults(base):
        for row in rows_of(fault):
            if row.unit is not None and row.model in base.models:
                yield from _unknown(base, [row.model], row.unit, fault.path, f"{row.at}/unit")
        models = [row.model for row in fault.applies_to if row.model in base.models]
        if len(models) < len(fault.applies_to) or not fault.intact("/applies_to"):
            continue
        for code in fault.codes:
            if code.unit is not None:
                yield from _unknown(base, models, code.unit, fault.path, f"{code.at}/unit")


def _unknown(base: KnowledgeBase, models: list[str], unit: str, path: str, pointer: str) -> Iterator[Breach]:
    lost = {each for model in models for each in base.models[model].damaged}
    if not models or any(each == "" or each.startswith("/control_units") for each in lost):
        return
    known = {each.id: (each.name,) for model in models for each in base.models[model].control_units}
    if unit not in known:
        message, hint = missing("control unit", unit, known, f"on {' or '.join(dict.fromkeys(models))}")
        yield Breach(path=path, pointer=pointer, message=message, hint=hint)


RULE = Rule(
    code="KB309",
    title="Unknown control unit",
    severity="error",
    what="A control unit that the named model does not have, or, in a code's row, none of the entry's models.",
    why="A code means different things on different control units; the entry would show for none of them.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="years: 2003-2007, unit: engine-a",
        bad="years: 2003-2007, unit: engine-aa",
        good="years: 2003-2007, unit: engine-a",
    ),
    alone="any day",
    check=check,
)
