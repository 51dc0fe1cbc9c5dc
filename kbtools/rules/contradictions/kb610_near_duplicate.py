"""KB610: entries that may say the same."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import published
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.fault import Fault
from kbtools.model.memory import Memory
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.similarity.comparison import Comparison, comparison
from kbtools.similarity.met import met
from kbtools.similarity.pairs import Pair, similar
from kbtools.similarity.why import carried
from kbtools.text.short import short

_MOST_WORDED = 50
"""Pairs of which the words that met are told: a base with more of them has another trouble."""


def check(base: KnowledgeBase, _today: dt.date, memory: Memory | None = None) -> Iterator[Breach]:
    """Pairs of entries, each at the newcomer: the one that is new or was edited, else the one read or seen last."""
    pairs = [
        pair
        for pair in similar(base, "fault", memory=memory)
        # Of an entry that is damaged nobody knows what it says; it is told of already.
        if not base.faults[pair.a].damaged and not base.faults[pair.b].damaged
    ]
    compared = comparison(base, memory) if pairs else None
    for number, pair in enumerate(pairs):
        yield _of_faults(base, pair, compared if number < _MOST_WORDED else None)
    for pair in similar(base, "case", memory=memory):
        if not base.cases[pair.a].damaged and not base.cases[pair.b].damaged:
            yield _of_cases(base, pair)


def _of_faults(base: KnowledgeBase, pair: Pair, compared: Comparison | None) -> Breach:
    other, later = sorted((base.faults[pair.a], base.faults[pair.b]), key=lambda each: _age(base, each))
    # A published id has an address that somebody may have kept.
    advice = published(base)
    keep, go = (later, other) if later.id in advice and other.id not in advice else (other, later)
    kept = f"{keep.id}, which is published" if keep.id in advice else keep.id
    # The figures stand in the hint: they shift a little with every entry that is added, and the finding stays the same.
    hint = (
        f"Alike in: {carried(pair.fields)}. {_in_words(compared, later, other)}If they are one, keep the id {kept}: "
        f"kbtools similar --merge {keep.id} {go.id} drafts one of both. If they are two, say under distinct_from how "
        "to tell them apart."
    )
    message = f'This may be the same fault as "{other.id}" ({short(other.title)}).'
    return Breach(path=later.path, pointer="/title", message=message, hint=hint, beside=other.path)


def _in_words(compared: Comparison | None, later: Fault, other: Fault) -> str:
    """What met, in the entries' own words."""
    if compared is None:
        return ""
    both = met(compared, later, other)
    words = f"Words that met: {', '.join(map(short, both.words))}. " if both.words else ""
    pairs = [one if one == two else f"{one} and {two}" for one, two in both.causes]
    return f"{words}Causes that met: {'; '.join(map(short, pairs))}. " if pairs else words


def _age(base: KnowledgeBase, fault: Fault) -> tuple[bool, bool, dt.date]:
    """The newcomer comes last: what is touched, then what is no advice yet, then the younger review."""
    return fault.path in base.touched, fault.id not in published(base), _reviewed(fault)


def _of_cases(base: KnowledgeBase, pair: Pair) -> Breach:
    hint = (
        f"Alike in: {carried(pair.fields)}. Keep the fuller one; if the fault came back on the same bike, let the "
        "later one name the earlier one under follows."
    )
    other, later = sorted(
        (base.cases[pair.a], base.cases[pair.b]), key=lambda each: (each.path in base.touched, _seen(each))
    )
    message = f'This may be the same event as in "{other.id}".'
    return Breach(path=later.path, pointer="", message=message, hint=hint, beside=other.path)


def _reviewed(fault: Fault) -> dt.date:
    """What is not reviewed yet is the newest."""
    return dt.date.max if fault.reviewed is None else fault.reviewed.on


def _seen(case: Case) -> dt.date:
    return dt.date.max if case.seen is None else case.seen


_TWIN = (
    "title: {title}\nsystem: charging\napplies_to: [{{model: wren-400, years: 2003-2007}}]\n"
    "ride_advice: {{level: ride-to-workshop, why: It leaves you standing.}}\n"
    "causes:\n  - id: {cause}\n    summary: {summary}\n    component: regulator\n"
    "    fix: {{summary: {fix}, skill: experienced, labour_hours: 0.5}}\n"
    "sources: [{{kind: first-hand, title: Seen on two bikes}}]\nreviewed: {{on: 2026-03-14, by: curator-1}}\n"
)

RULE = Rule(
    code="KB610",
    title="May be there already",
    severity="warning",
    of_sound_files=True,
    what=(
        "Two faults, or two case reports, that are alike in words, causes, codes and machines, whatever their order, "
        "ids and spelling. Opposites (too high and too low, front and rear) are told apart."
    ),
    why="Two halves of one story are worth less than one whole: cases are counted for one half only.",
    sample=Sample(
        path="faults/charging/wet-rides.yml",
        instead_of="",
        bad=_TWIN.format(
            title="Charging lamp flickering after rain",
            cause="plug-rotten",
            summary="Plug of the regulator is corroded",
            fix="Crimp new terminals.",
        ),
        good=_TWIN.format(
            title="Battery boils over on long rides",
            cause="limiter",
            summary="Voltage is no longer limited",
            fix="Fit a new one.",
        ),
    ),
    check=check,
    check_with=check,
)
