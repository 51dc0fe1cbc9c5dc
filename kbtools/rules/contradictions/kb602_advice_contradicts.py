"""KB602: one code, contradicting ride advice."""

from __future__ import annotations

import datetime as dt
from collections.abc import Hashable, Iterator

from kbtools.index.apart import told_apart_as_written
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import CodeRow, Fault
from kbtools.model.ride_advice import RIDE_LEVELS, RideLevel
from kbtools.rules.contradictions.reach import Clash, Ledger, Reach, comparable, narrowed, one_unit, reaches
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short

_APART = 2
"""Steps between the levels from which owners of one bike with one code are told clearly different things."""


Said = tuple[Fault, CodeRow]


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Entries whose advice contradicts that of an earlier one, each once."""
    ledger, apart = Ledger[RideLevel, Said](_far), told_apart_as_written(base)
    for fault in comparable(base):
        level = None if fault.ride_advice is None else fault.ride_advice.level
        if level is None:
            continue
        uses = list(_uses(base, fault))
        clashes = (each for subject, row, reach in uses for each in _clashes(ledger, subject, (fault, row), reach))
        clash = next((each for each in clashes if frozenset({fault.id, each.said[0].id}) not in apart), None)
        if clash is not None:
            yield _breach(base, fault, level, clash)
        for subject, row, reach in uses:
            ledger.add(subject, level, reach, (fault, row))


def _uses(base: KnowledgeBase, fault: Fault) -> Iterator[tuple[Hashable, CodeRow, Reach]]:
    """The situations in which the entry shows: a code and those that must be there with it."""
    for row in fault.codes:
        # A consequence says nothing of its own.
        if row.read.code is not None and not row.follow_on:
            subject = (row.read.code, frozenset(each.text for each in row.with_codes))
            yield subject, row, narrowed(base, reaches(base)[fault.id], row.unit)


def _clashes(
    ledger: Ledger[RideLevel, Said], subject: Hashable, now: Said, reach: Reach
) -> Iterator[Clash[RideLevel, Said]]:
    fault, row = now
    level = fault.ride_advice.level if fault.ride_advice is not None else RIDE_LEVELS[0]
    for clash in ledger.clashes(subject, level, reach):
        if one_unit(row, clash.said[1]):
            yield clash


def _far(level: RideLevel, other: RideLevel) -> bool:
    return abs(RIDE_LEVELS.index(level) - RIDE_LEVELS.index(other)) >= _APART


def _breach(base: KnowledgeBase, fault: Fault, level: RideLevel, clash: Clash[RideLevel, Said]) -> Breach:
    other, said = clash.said
    message = (
        f"With {short(said.read.text)} on a {short(base.models[clash.model].name)} {clash.years.text} this entry says "
        f'{level}, and "{other.id}" says {clash.value}.'
    )
    hint = "Make them agree, or say in `distinct_from` how an owner tells the two apart."
    return Breach(path=fault.path, pointer="/ride_advice/level", message=message, hint=hint)


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
            "    fix: {summary: Fit a new bulb., skill: experienced, labour_hours: 0.2}\n"
            "sources: [{kind: first-hand, title: Seen on two bikes}]\nreviewed: {on: 2026-03-14, by: curator-1}\n"
        ),
        good=(
            "title: Charge lamp never lights\nsystem: charging\napplies_to: [{model: wren-400, years: 2003-2007}]\n"
            "codes: [{code: P0562, meaning: System voltage low}]\n"
            "ride_advice: {level: no-restriction, why: Only the bulb is gone.}\n"
            "causes:\n  - id: bulb\n    summary: Bulb blown\n"
            "    fix: {summary: Fit a new bulb., skill: experienced, labour_hours: 0.2}\n"
            "sources: [{kind: first-hand, title: Seen on two bikes}]\nreviewed: {on: 2026-03-14, by: curator-1}\n"
            "distinct_from: [{fault: lamp-flickers, because: There the lamp lights.}]\n"
        ),
    ),
    check=check,
)
