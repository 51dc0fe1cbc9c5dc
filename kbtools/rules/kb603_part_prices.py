"""KB603: one part, prices that exclude each other."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass

from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Cause, Fault, Part
from kbtools.model.money import Range, show_range
from kbtools.rules.alike import fold
from kbtools.rules.meaning import short
from kbtools.rules.reach import Reach, published, reach, reaches, shared
from kbtools.rules.rule import Found, Rule, Sample


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bought:
    """A part at a price."""

    fault: Fault
    reach: Reach


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Found]:
    """Prices that contradict an earlier one of the same part, each once."""
    known = reaches(base)
    bought: dict[tuple[str, str | None], dict[Range, list[_Bought]]] = {}
    for fault in sorted(published(base), key=lambda each: each.path):
        if not fault.intact("/applies_to"):
            continue
        for cause, part in _parts(fault):
            price = part.price
            # One whose ends changed places is KB402's.
            if price is None or price.low > price.high:
                continue
            whom = reach(base, cause.applies_to) if cause.applies_to else known[fault.id]
            before = bought.setdefault((fold(part.name), cause.component), {})
            found = _against(base, fault, part, price, whom, before)
            if found is None:
                before.setdefault(price, []).append(_Bought(fault=fault, reach=whom))
            else:
                yield found


def _parts(fault: Fault) -> Iterator[tuple[Cause, Part]]:
    for cause in fault.causes:
        for part in cause.fix.parts if cause.fix is not None else ():
            yield cause, part


def _against(
    base: KnowledgeBase, fault: Fault, part: Part, price: Range, whom: Reach, before: dict[Range, list[_Bought]]
) -> Found | None:
    apart = ((each, rows) for each, rows in before.items() if price.low > each.high or each.low > price.high)
    for its, other in ((each, other) for each, rows in apart for other in rows):
        common = shared(whom, other.reach)
        if common is None:
            continue
        where = "in this entry" if other.fault is fault else f'in "{other.fault.id}"'
        message = (
            f'"{short(part.name)}" for the {short(base.models[common[0]].name)} costs {show_range(its)} '
            f"{where}, and {show_range(price)} here."
        )
        hint = "Write one price that holds in both places, or names that tell the two parts apart."
        return Found(path=fault.path, pointer=f"{part.at}/price", message=message, hint=hint)
    return None


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
