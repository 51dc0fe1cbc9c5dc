"""KB603: one part, prices that exclude each other."""

from __future__ import annotations

import datetime as dt
import functools
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Cause, Fault, Part
from kbtools.model.money import Range, show_range
from kbtools.rules.contradictions.reach import Ledger, comparable, of_two_minds, reach, reaches
from kbtools.rules.contradictions.wordings import fold
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short

Bought = tuple[tuple[str, str | None], Fault, Cause, Part, Range]
"""The part that is meant, by its name and component; where it stands, and its price."""


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Prices that contradict an earlier one of the same part, each once."""
    ledger = Ledger[Range, Fault](_apart)
    every = list(_all(base))
    open_ones = of_two_minds((subject, price) for subject, _, _, _, price in every)
    for subject, fault, cause, part, price in every:
        if subject not in open_ones:
            continue
        whom = reach(base, cause.applies_to) if cause.applies_to else reaches(base)[fault.id]
        clash = next(ledger.clashes(subject, price, whom), None)
        if clash is None:
            ledger.add(subject, price, whom, fault)
            continue
        where = "in this entry" if clash.said is fault else f'in "{clash.said.id}"'
        message = (
            f'"{short(part.name)}" for the {short(base.models[clash.model].name)} costs {show_range(clash.value)} '
            f"{where}, and {show_range(price)} here."
        )
        hint = "Write one price that holds in both places, or names that tell the two parts apart."
        yield Breach(path=fault.path, pointer=f"{part.at}/price", message=message, hint=hint)


def _all(base: KnowledgeBase) -> Iterator[Bought]:
    folded = functools.cache(fold)
    for fault in comparable(base):
        for cause in fault.causes:
            for part in cause.fix.parts if cause.fix is not None else ():
                # One whose ends changed places is KB402's.
                if part.price is not None and part.price.low <= part.price.high:
                    yield (folded(part.name), cause.component), fault, cause, part, part.price


def _apart(price: Range, other: Range) -> bool:
    return price.low > other.high or other.low > price.high


RULE = Rule(
    code="KB603",
    title="One part, two prices",
    severity="warning",
    what=(
        "A part of the same name for the same component, at prices that have no amount in common, on model years that "
        "both concern."
    ),
    why="One of the two is out of date or a slip, and what the repair is said to cost depends on where one looks.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="parts: [{name: Terminal kit, price: [8, 20]}]",
        bad="parts: [{name: Terminal kit, price: [8, 20]}, {name: terminal kit, price: 60}]",
        good="parts: [{name: Terminal kit, price: [8, 20]}, {name: terminal kit with cable, price: 60}]",
    ),
    check=check,
)
