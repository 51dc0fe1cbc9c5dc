"""KB445: reading of a case that its check's range says otherwise about."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import Literal

from kbtools.index.checks import answer_intact
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case, Tried
from kbtools.model.check import Reading
from kbtools.model.fault import Fault
from kbtools.model.measured import Measured, measured, quantity, times
from kbtools.model.money import Range
from kbtools.rules.beside import beside
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def of_case(case: Case, fault: Fault, _base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Readings in a case whose unit or side is not the check's."""
    readings = {
        each.id: each.reading for each in fault.checks if each.reading is not None and answer_intact(fault, each)
    }
    for tried in case.tried:
        reading = readings.get(tried.check or "")
        if reading is not None and tried.reading is not None:
            wrong = _wrong(tried, tried.reading, reading)
            if wrong is not None:
                hint = "Correct the reading or the result; where the range is wrong, the check's `good`."
                yield Breach(path=case.path, pointer=f"{tried.at}/reading", message=wrong, hint=hint)


def _wrong(tried: Tried, text: str, reading: Reading) -> str | None:
    found, good, unit = measured(text), reading.good, reading.unit or ""
    if found is None or good is None or good.low > good.high or quantity(unit) is None:
        return None
    factor = times(found.unit or unit, unit)
    if factor is None:
        return f'"{short(text)}" is no reading in {unit}, in which the check "{tried.check}" is read.'
    side = _sides(found, factor, good)
    if tried.result in {"low", "good", "high"} and tried.result not in side:
        shown = f"{good.low:g} to {good.high:g} {unit}"
        return f'"{short(text)}" is {" or ".join(sorted(side))} and not {tried.result}: good is {shown}.'
    return None


def _sides(found: Measured, factor: float, good: Range) -> set[Literal["low", "good", "high"]]:
    """On which sides the value may be, rounded as it is."""
    least, most = (found.value - found.rounding) * factor, (found.value + found.rounding) * factor
    exact = found.value * factor
    sides: set[Literal["low", "good", "high"]] = set()
    if exact < good.low:
        sides.add("low")
    if exact > good.high:
        sides.add("high")
    if most >= good.low and least <= good.high:
        sides.add("good")
    return sides


_CASE = """\
vehicle: {{model: wren-400, year: 2006, odometer: 30000 km}}
seen: 2026-03-01
fault: ammeter-at-zero
tried:
  - {{check: at-the-posts, result: {}, reading: 10.2 V}}
outcome: {{state: open}}
source: {{kind: first-hand, title: Member report}}
"""

_LOOK = beside("KB445", of_case)

RULE = Rule(
    code="KB445",
    title="Reading beside its check",
    severity="error",
    what=(
        "A reading in a case in another quantity than its check's, or with a result that is not its side of the "
        "check's `good` range: good at 10.2 V where 12.5 to 12.9 V are good. A value as rounded as it is written may "
        "be on both sides of a limit; texts without a figure, or with several, are left alone."
    ),
    why="The case counts for the causes of the wrong side, and the next owner pays for them.",
    sample=Sample(
        path="cases/2026/wren-400-0002.yml",
        instead_of="",
        bad=_CASE.format("good"),
        good=_CASE.format("low"),
    ),
    check=_LOOK,
    check_with=_LOOK,
)
