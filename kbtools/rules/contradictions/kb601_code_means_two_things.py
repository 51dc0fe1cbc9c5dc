"""KB601: one code, two meanings."""

from __future__ import annotations

import datetime as dt
import functools
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import CodeRow, Fault
from kbtools.rules.contradictions.reach import Clash, Ledger, comparable, narrowed, of_two_minds, one_unit, reaches
from kbtools.rules.contradictions.wordings import contrary_in, same_words, words
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short

Said = tuple[Fault, CodeRow]


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Meanings that contradict an earlier one, each once."""
    known = reaches(base)
    ledger = Ledger[tuple[str, ...], Said](contrary_in(base))
    every = list(_all(base))
    open_ones = of_two_minds((row.read.code, meaning) for _, row, meaning in every)
    for fault, row, meaning in every:
        if row.read.code in open_ones:
            reach = narrowed(base, known[fault.id], row.unit)
            clashes = ledger.clashes(row.read.code, meaning, reach)
            clash = next((each for each in clashes if one_unit(row, each.said[1])), None)
            if clash is None:
                # What contradicts an earlier row is reported; those after it are held against the earlier one.
                ledger.add(row.read.code, meaning, reach, (fault, row))
            else:
                yield _breach(base, fault, row, clash)


def _all(base: KnowledgeBase) -> Iterator[tuple[Fault, CodeRow, tuple[str, ...]]]:
    """Every row with the words of its meaning."""
    same = same_words(base)
    told = functools.cache(lambda meaning: words(meaning, same))
    for fault in comparable(base):
        for row in fault.codes:
            if row.read.code is not None and row.meaning is not None:
                yield fault, row, told(row.meaning)


def _breach(base: KnowledgeBase, fault: Fault, row: CodeRow, clash: Clash[tuple[str, ...], Said]) -> Breach:
    other, said = clash.said
    where = "in this entry" if other is fault else f'in "{other.id}"'
    message = (
        f'{short(row.read.text)} means "{short(said.meaning or "")}" {where} for the '
        f"{short(base.models[clash.model].name)} {clash.years.text}, and something else here."
    )
    hint = "Name the control unit in both rows if they are two; else write what the maker's list says."
    return Breach(path=fault.path, pointer=f"{row.at}/meaning", message=message, hint=hint)


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
            "    fix: {summary: Fit a new bulb., skill: experienced, labour_hours: 0.2}\n"
            "sources: [{kind: first-hand, title: Seen on two bikes}]\nreviewed: {on: 2026-03-14, by: curator-1}\n"
        ),
        good=(
            "title: Charge lamp never lights\nsystem: charging\napplies_to: [{model: wren-400, years: 2003-2007}]\n"
            "codes: [{code: P0562, meaning: Voltage of the system too low}]\n"
            "ride_advice: {level: ride-with-care, why: Nothing warns.}\n"
            "causes:\n  - id: bulb\n    summary: Bulb blown\n"
            "    fix: {summary: Fit a new bulb., skill: experienced, labour_hours: 0.2}\n"
            "sources: [{kind: first-hand, title: Seen on two bikes}]\nreviewed: {on: 2026-03-14, by: curator-1}\n"
        ),
    ),
    check=check,
)
