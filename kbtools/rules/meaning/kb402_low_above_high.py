"""KB402: low above high."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.checks import written
from kbtools.index.entries import faults
from kbtools.index.scopes import rows_of
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault
from kbtools.model.money import Range, show_number
from kbtools.model.years import Years, backwards
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Ranges and years that run the wrong way."""
    if base.club is not None:
        club = base.club
        named = {"labour_rate": club.labour_rate, "transport": club.transport, "unlisted_repair": club.unlisted_repair}
        for key, value in named.items():
            yield from _range("club.yml", f"/{key}", value)
    for model in base.models.values():
        yield from _years(model.path, "", model.years)
        for unit in model.control_units:
            yield from _years(model.path, unit.at, unit.years)
    for fault in faults(base):
        yield from _of_fault(fault)
    for path, each in written(base):
        if each.reading is not None:
            yield from _range(path, f"{each.reading.at}/good", each.reading.good)
        for row in each.good_for:
            yield from _years(path, row.at, row.years)
            yield from _range(path, f"{row.at}/good", row.good)


def _of_fault(fault: Fault) -> Iterator[Breach]:
    for row in rows_of(fault):
        yield from _years(fault.path, row.at, row.years)
    for fix in (cause.fix for cause in fault.causes if cause.fix is not None):
        for part in fix.parts:
            yield from _range(fault.path, f"{part.at}/price", part.price)
        yield from _range(fault.path, f"{fix.at}/labour_hours", fix.labour_hours)


def _range(path: str, pointer: str, value: Range | None) -> Iterator[Breach]:
    if value is not None and value.low > value.high:
        low, high = show_number(value.low), show_number(value.high)
        message = f"The low end, {low}, is above the high end, {high}."
        yield Breach(path=path, pointer=f"{pointer}/0", message=message, hint=f"Perhaps [{high}, {low}] is meant.")


def _years(path: str, row: str, years: Years) -> Iterator[Breach]:
    if backwards(years):
        turned = Years(first=years.last, last=years.first).text
        message = f"The years {years.text} end before they begin."
        yield Breach(path=path, pointer=f"{row}/years", message=message, hint=f"Perhaps {turned} is meant.")


RULE = Rule(
    code="KB402",
    title="Low above high",
    severity="error",
    what="A range of money, hours or readings, or of years, whose first number is above its second.",
    why=(
        "No bike and no bill lies in such a range; most often the two numbers changed places, or one has a "
        "digit too many."
    ),
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="price: [8, 20]",
        bad="price: [20, 8]",
        good="price: [8, 20]",
    ),
    alone="any day",
    check=check,
)
