"""KB612: one place measured, two good ranges."""

from __future__ import annotations

import datetime as dt
from collections.abc import Hashable, Iterator
from dataclasses import dataclass

from kbtools.index.checks import answer_intact, pointed
from kbtools.model.base import KnowledgeBase
from kbtools.model.check import Check, Reading
from kbtools.model.fault import Fault
from kbtools.model.measured import in_first_unit, quantity
from kbtools.model.money import Range
from kbtools.model.sound_readings import BATTERY
from kbtools.rules.contradictions.reach import Ledger, Reach, comparable, of_two_minds, reaches
from kbtools.rules.contradictions.wordings import same_words, words
from kbtools.rules.rule import Breach, Rule, Sample


@dataclass(frozen=True, slots=True, kw_only=True)
class _Said:
    """A good range in an entry."""

    fault: Fault
    check: Check
    reading: Reading
    good: Range


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Good ranges that differ from an earlier one for the same place, state and machines, each once."""
    ledger = Ledger[tuple[float, float], _Said](lambda one, other: one != other)
    known = reaches(base)
    every = [(said, [*_subjects(base, said)], _limits(said)) for said in _all(base)]
    open_ones = of_two_minds((subject, limits) for _, subjects, limits in every for subject in subjects)
    for said, subjects, limits in every:
        whom: Reach = known[said.fault.id]
        for subject in subjects:
            if subject not in open_ones:
                continue
            clash = next(ledger.clashes(subject, limits, whom), None)
            if clash is None:
                ledger.add(subject, limits, whom, said)
                continue
            yield _breach(said, clash.said)
            break


def _limits(said: _Said) -> tuple[float, float]:
    return _in_base(said.good.low, said.reading), _in_base(said.good.high, said.reading)


def _all(base: KnowledgeBase) -> Iterator[_Said]:
    for fault in comparable(base):
        for each in fault.checks:
            reading = each.reading
            if reading is None or reading.good is None or not reading.place or not answer_intact(fault, each):
                continue
            if reading.good.low <= reading.good.high and quantity(reading.unit or "") is not None:
                yield _Said(fault=fault, check=each, reading=reading, good=reading.good)


def _subjects(base: KnowledgeBase, said: _Said) -> Iterator[Hashable]:
    """What is measured there: the same words of place and state, the same quantity, and a part that is the same."""
    same = same_words(base)
    place = words(said.reading.place or "", same)
    read = (place, words(said.reading.when or "", same), quantity(said.reading.unit or ""))
    if BATTERY in place:
        # A machine has one battery, whatever it is measured for.
        yield (*read, BATTERY)
        return
    ids = set(pointed(said.check))
    for component in sorted({cause.component for cause in said.fault.causes if cause.id in ids and cause.component}):
        yield (*read, component)


def _in_base(figure: float, reading: Reading) -> float:
    """The figure in the first unit of its quantity, so that 200 mV and 0.2 V are one."""
    return round(figure * in_first_unit(reading.unit or ""), 9)


def _breach(said: _Said, other: _Said) -> Breach:
    where = "in this entry" if other.fault is said.fault else f'in "{other.fault.id}"'
    message = (
        f"{said.good.low:g} to {said.good.high:g} {said.reading.unit} is good here, and {other.good.low:g} to "
        f"{other.good.high:g} {other.reading.unit} {where}, at the same place and in the same state."
    )
    hint = "Write one range that both can stand by, or say in `at` or `when` what is different."
    return Breach(
        path=said.fault.path,
        pointer=f"{said.reading.at}/good",
        message=message,
        hint=hint,
        beside=other.fault.path if other.fault is not said.fault else None,
    )


_CHECK = """\
checks:
  - id: at-the-posts
    do: Pull the bulb, put both probes into its holder, have somebody open the throttle.
    reading: {{at: tail lamp holder, when: warm at speed, good: [13.5, 14.8], unit: V, low_points_to: [corroded-plug]}}
    minutes: 5
    skill: home
  - id: at-the-posts-again
    do: Does the meter show more once the plug has bright terminals?
    reading: {{at: tail lamp holder, when: warm at speed, good: {}, unit: {}, low_points_to: [corroded-plug]}}
    minutes: 5
    skill: home
"""

RULE = Rule(
    code="KB612",
    title="One place, two good ranges",
    severity="warning",
    what=(
        "Two readings at the same place and in the same state, in the words of both entries or in words that the club "
        "holds for the same, for a part that both are about, on model years that both concern, with two good ranges."
    ),
    why="The same figure clears a part on one page and condemns it on the other.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="checks:\n",
        bad=_CHECK.format("[13.8, 14.6]", "V"),
        good=_CHECK.format("[13500, 14800]", "mV"),
    ),
    check=check,
)
