"""KB416: case that does not fit its fault."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence

from kbtools.index.built import outside, sound
from kbtools.index.codes import case_codes, fault_codes, meet
from kbtools.index.scopes import applies
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.codes import CodeFormat
from kbtools.model.fault import Fault
from kbtools.model.years import Years
from kbtools.rules.beside import beside
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def of_case(case: Case, fault: Fault, base: KnowledgeBase, today: dt.date) -> Iterator[Breach]:
    """What of the bike or the codes of a case is not its fault's; one finding a case."""
    if fault.draft:
        return
    vehicle = _vehicle(case, fault, base, today)
    codes = _codes(case, fault, () if base.club is None else base.club.code_formats)
    if vehicle is not None and codes is not None:
        message = f'Neither the bike nor the codes of this case are those of the fault "{fault.id}".'
        yield Breach(path=case.path, pointer="/fault", message=message, hint="Name the fault that it is about.")
    elif vehicle is not None:
        yield vehicle
    elif codes is not None:
        yield codes


def _vehicle(case: Case, fault: Fault, base: KnowledgeBase, today: dt.date) -> Breach | None:
    model, year = base.models.get(case.vehicle.model or ""), case.vehicle.year
    if model is None or year is None or not fault.intact("/applies_to"):
        return None
    if not all(sound(row, base, today) for row in fault.applies_to):
        return None
    if outside(Years(first=year, last=year), model, today) or applies(fault.applies_to, model.id, year, base):
        return None
    named = any(row.model == model.id for row in fault.applies_to)
    message = f'The fault "{fault.id}" does not concern a {short(model.name)}{f" of {year}" if named else ""}.'
    hint = "Correct the bike, name another fault, or let the fault's `applies_to` hold this bike."
    return Breach(path=case.path, pointer=f"/vehicle/{'year' if named else 'model'}", message=message, hint=hint)


def _codes(case: Case, fault: Fault, formats: Sequence[CodeFormat]) -> Breach | None:
    read = [place.read.code for place in case_codes(case)]
    listed = [place.read.code for place in fault_codes(fault)]
    if None in read or None in listed or not fault.intact("/codes"):
        return None
    if any(each.startswith("/codes") for each in case.damaged):
        return None
    seen, known = [each for each in read if each is not None], [each for each in listed if each is not None]
    if not seen or not known or meet(seen, known, formats):
        return None
    shown = ", ".join(dict.fromkeys(short(each.text) for each in known[:8]))
    message = f'None of these codes is one of the fault "{fault.id}".'
    hint = f"It lists {shown}; correct the codes, name another fault, or add the code to the fault."
    return Breach(path=case.path, pointer="/codes", message=message, hint=hint)


_CHECK = beside("KB416", of_case, this_day=True)

RULE = Rule(
    code="KB416",
    title="Case that does not fit its fault",
    severity="error",
    what="A case of a fault that does not concern its bike, or that shows none of the codes that the case has read.",
    why="It would count as evidence for something that it is not about.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="year: 2005",
        bad="year: 2011",
        good="year: 2005",
    ),
    check=_CHECK,
    check_with=_CHECK,
)
