"""KB602: one code, contradicting ride advice."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass

from kbtools.model.base import KnowledgeBase
from kbtools.model.codes import FaultCode
from kbtools.model.fault import RIDE_LEVELS, CodeRow, Fault, RideLevel
from kbtools.rules.meaning import short
from kbtools.rules.reach import Reach, narrowed, published, reaches, shared
from kbtools.rules.rule import Found, Rule, Sample

_APART = 2
"""Steps between the levels from which owners of one bike with one code are told clearly different things."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Use:
    """A code's row, and how strict its entry is."""

    fault: Fault
    row: CodeRow
    reach: Reach


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Found]:
    """Entries whose advice contradicts that of an earlier one, each once."""
    uses: dict[tuple[FaultCode, frozenset[str]], dict[RideLevel, list[_Use]]] = {}
    known = reaches(base)
    for fault in sorted(published(base), key=lambda each: each.path):
        level = None if fault.ride_advice is None else fault.ride_advice.level
        if level is None or not fault.intact("/applies_to"):
            continue
        against: Found | None = None
        for row in fault.codes:
            # A consequence says nothing of its own, and a code that needs others beside it is another situation.
            if row.read.code is None or row.follow_on:
                continue
            situation = (row.read.code, frozenset(each.text for each in row.with_codes))
            use = _Use(fault=fault, row=row, reach=narrowed(base, known[fault.id], row.unit))
            before = uses.setdefault(situation, {})
            against = against or _against(base, use, level, before)
            before.setdefault(level, []).append(use)
        if against is not None:
            yield against


def _told_apart(fault: Fault, other: Fault) -> bool:
    return any(each.fault == other.id for each in fault.distinct_from)


def _far(level: RideLevel, other: RideLevel) -> bool:
    return abs(RIDE_LEVELS.index(level) - RIDE_LEVELS.index(other)) >= _APART


def _against(base: KnowledgeBase, use: _Use, level: RideLevel, before: dict[RideLevel, list[_Use]]) -> Found | None:
    far = ((each, other) for each, rows in before.items() if _far(level, each) for other in rows)
    for its, other in far:
        units = (use.row.unit, other.row.unit)
        if other.fault is use.fault or (None not in units and units[0] != units[1]):
            continue
        if _told_apart(use.fault, other.fault) or _told_apart(other.fault, use.fault):
            continue
        common = shared(use.reach, other.reach)
        if common is not None:
            model, years = common
            message = (
                f"With {short(use.row.read.text)} on a {short(base.models[model].name)} {years.text} this entry says "
                f'{level}, and "{other.fault.id}" says {its}.'
            )
            hint = "Make them agree, or say in `distinct_from` how an owner tells the two apart."
            return Found(path=use.fault.path, pointer="/ride_advice/level", message=message, hint=hint)
    return None


RULE = Rule(
    code="KB602",
    title="One code, contradicting ride advice",
    severity="warning",
    what=(
        "Two entries with one code for the same control unit (or where one of the two names none) and for model years "
        "that both concern, whose ride advice is two or more of the four steps apart. Entries that `distinct_from` "
        "tells apart are let be, and so is a code that is only a consequence."
    ),
    why="An owner with that code reads that the bike may be ridden and that it may not.",
    sample=Sample(
        path="faults/charging/lamp-off.yml",
        instead_of="",
        bad=(
            "title: Charge lamp never lights\nsystem: charging\napplies_to: [{model: wren-400, years: 2003-2007}]\n"
            "codes: [{code: P0562, meaning: System voltage low}]\n"
            "ride_advice: {level: no-restriction, why: Only the bulb is gone.}\n"
            "causes:\n  - id: bulb\n    summary: Bulb blown\n"
            "    fix: {summary: Fit a new bulb., skill: home, labour_hours: 0.2}\n"
            "sources: [{kind: first-hand, title: Seen on two bikes}]\nreviewed: {on: 2026-03-14, by: curator-1}\n"
        ),
        good=(
            "title: Charge lamp never lights\nsystem: charging\napplies_to: [{model: wren-400, years: 2003-2007}]\n"
            "codes: [{code: P0562, meaning: System voltage low}]\n"
            "ride_advice: {level: no-restriction, why: Only the bulb is gone.}\n"
            "causes:\n  - id: bulb\n    summary: Bulb blown\n"
            "    fix: {summary: Fit a new bulb., skill: home, labour_hours: 0.2}\n"
            "sources: [{kind: first-hand, title: Seen on two bikes}]\nreviewed: {on: 2026-03-14, by: curator-1}\n"
            "distinct_from: [{fault: lamp-flickers, because: There the lamp lights.}]\n"
        ),
    ),
    check=check,
)
