"""What the rules of family KB4 have in common: whose years count, where years and codes stand, and words for them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass

from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.catalogue import Model
from kbtools.model.codes import CodeReading, pattern_problem
from kbtools.model.fault import AppliesTo, Cause, Check, Fault
from kbtools.model.years import Years, last_built


@dataclass(frozen=True, slots=True, kw_only=True)
class CodePlace:
    """A place that names a fault code."""

    read: CodeReading
    """The code as written, and the club formats that it fits."""
    path: str
    """File in which it stands."""
    pointer: str
    """Where it stands."""


def short(text: str) -> str:
    """A text of an author as a message repeats it: at most 60 characters."""
    return text if len(text) <= 60 else f"{text[:59]}…"


def rows_of(fault: Fault) -> Iterator[AppliesTo]:
    """Every row of a fault that names a model: its own, those of its causes and those of its sources."""
    yield from fault.applies_to
    for cause in fault.causes:
        yield from cause.applies_to
    for source in fault.sources:
        yield from source.applies_to


def backwards(years: Years) -> bool:
    """Whether the first year comes after the last; KB402 says so, and nothing else is asked of such years."""
    return years.first is not None and years.last is not None and years.first > years.last


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


def built_text(model: Model) -> str:
    """The years of a model in a sentence: `2003-2012`, `2010- (still built)`."""
    still = model.years.first is not None and model.years.last is None
    return f"{model.years.text}{' (still built)' if still else ''}"


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


def fault_codes(fault: Fault) -> Iterator[CodePlace]:
    """Every place of a fault that names a code."""
    for row in fault.codes:
        yield CodePlace(read=row.read, path=fault.path, pointer=f"{row.at}/code")
        for index, read in enumerate(row.with_codes):
            yield CodePlace(read=read, path=fault.path, pointer=f"{row.at}/with/{index}")


def case_codes(case: Case) -> Iterator[CodePlace]:
    """Every place of a case that names a code."""
    for row in case.codes:
        yield CodePlace(read=row.read, path=case.path, pointer=f"{row.at}/code")


def all_codes(base: KnowledgeBase) -> Iterator[CodePlace]:
    """Every place of faults and cases that names a code."""
    for fault in base.faults.values():
        yield from fault_codes(fault)
    for case in base.cases.values():
        yield from case_codes(case)


def formats_known(base: KnowledgeBase) -> bool:
    """Whether every format of the club could be read and used; if not, a code that fits none may fit a lost one."""
    if base.club is None or not base.club.code_formats:
        return False
    if any(each.startswith("/code_formats") for each in base.club.damaged):
        return False
    return not any(each.pattern is not None and pattern_problem(each.pattern) for each in base.club.code_formats)


def safety_critical(base: KnowledgeBase, fault: Fault, cause: Cause) -> bool:
    """Whether mending this cause is work on a safety-critical system: the fault's, or the component's own."""
    component = base.components.get(cause.component or "")
    ids = (fault.system, component.system if component is not None else None)
    systems = (base.systems.get(each) for each in ids if each is not None)
    return any(system is not None and system.safety_critical for system in systems)


def pointed(check: Check) -> tuple[str, ...]:
    """Ids of all causes that a check can point to."""
    reading = check.reading
    return check.points_to if reading is None else (*reading.low_points_to, *reading.high_points_to)


def answer_intact(fault: Fault, check: Check) -> bool:
    """Whether all was read of what a check may show and what it points to."""
    return all(fault.intact(f"{check.at}/{key}") for key in ("expect", "points_to", "reading"))
