"""KB601: one code, two meanings."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass

from kbtools.model.base import KnowledgeBase
from kbtools.model.codes import FaultCode
from kbtools.model.fault import CodeRow, Fault
from kbtools.rules.alike import contrary, same_words, words
from kbtools.rules.meaning import short
from kbtools.rules.reach import Reach, narrowed, published, reaches, shared
from kbtools.rules.rule import Found, Rule, Sample

Words = tuple[str, ...]
"""A meaning, for comparing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Use:
    """A code's row with what it says and of whom."""

    fault: Fault
    row: CodeRow
    reach: Reach


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Found]:
    """Meanings that contradict an earlier one, each once."""
    same, known = same_words(base), reaches(base)
    uses: dict[FaultCode, dict[Words, list[_Use]]] = {}
    for fault in sorted(published(base), key=lambda each: each.path):
        if not fault.intact("/applies_to"):
            continue
        for row in fault.codes:
            if row.read.code is None or row.meaning is None:
                continue
            use = _Use(fault=fault, row=row, reach=narrowed(base, known[fault.id], row.unit))
            said, before = words(row.meaning, same), uses.setdefault(row.read.code, {})
            found = _against(
                base, use, [each for other, rows in before.items() if contrary(said, other) for each in rows]
            )
            if found is None:
                # What contradicts an earlier row is reported; those after it are held against the earlier one.
                before.setdefault(said, []).append(use)
            else:
                yield found


def _against(base: KnowledgeBase, use: _Use, others: list[_Use]) -> Found | None:
    for other in others:
        units = (use.row.unit, other.row.unit)
        if None not in units and units[0] != units[1]:
            continue
        common = shared(use.reach, other.reach)
        if common is None:
            continue
        model, years = common
        place = "in this entry" if other.fault is use.fault else f'in "{other.fault.id}"'
        meaning = short(other.row.meaning or "")
        message = (
            f'{short(use.row.read.text)} means "{meaning}" {place} for the {short(base.models[model].name)} '
            f"{years.text}, and something else here."
        )
        hint = "Name the control unit in both rows if they are two; else write what the maker's list says."
        return Found(path=use.fault.path, pointer=f"{use.row.at}/meaning", message=message, hint=hint)
    return None


RULE = Rule(
    code="KB601",
    title="One code, two meanings",
    severity="warning",
    what=(
        "A code that two rows give clearly different meanings, for the same control unit (or where one of the two "
        "names none) and for model years that both concern."
    ),
    why="One of the two is wrong, and an owner who looks the code up cannot tell which.",
    sample=Sample(
        path="faults/charging/lamp-off.yml",
        instead_of="",
        bad=(
            "title: Charge lamp never lights\nsystem: charging\napplies_to: [{model: wren-400, years: 2003-2007}]\n"
            "codes: [{code: P0562, meaning: Engine coolant sensor circuit}]\n"
            "ride_advice: {level: ride-with-care, why: Nothing warns.}\n"
            "causes:\n  - id: bulb\n    summary: Bulb blown\n"
            "    fix: {summary: Fit a new bulb., skill: home, labour_hours: 0.2}\n"
            "sources: [{kind: first-hand, title: Seen on two bikes}]\nreviewed: {on: 2026-03-14, by: curator-1}\n"
        ),
        good=(
            "title: Charge lamp never lights\nsystem: charging\napplies_to: [{model: wren-400, years: 2003-2007}]\n"
            "codes: [{code: P0562, meaning: Voltage of the system too low}]\n"
            "ride_advice: {level: ride-with-care, why: Nothing warns.}\n"
            "causes:\n  - id: bulb\n    summary: Bulb blown\n"
            "    fix: {summary: Fit a new bulb., skill: home, labour_hours: 0.2}\n"
            "sources: [{kind: first-hand, title: Seen on two bikes}]\nreviewed: {on: 2026-03-14, by: curator-1}\n"
        ),
    ),
    check=check,
)
