"""What the texts of an entry ask to be done, and in which state of the machine, for the rules about unsafe work.

A check's keys say how the machine is before its words are read: with `bike: off` it stands, with `running` it runs. The
words then say otherwise, or nothing.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final, Literal

from kbtools.index.entries import living
from kbtools.index.per_base import per_base
from kbtools.index.reviews import read_twice
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import BikeState
from kbtools.model.check import Check
from kbtools.model.fault import Fault, Fix
from kbtools.model.vocabulary import Tables
from kbtools.rules.rule import Breach, Sample
from kbtools.rules.rule import Check as RuleCheck
from kbtools.text.short import short
from kbtools.vocabulary.unsafe import unsafe_reader

Part = Literal["work", "check", "advice", "symptom"]
"""What a text is about: work to be done, what a check asks for, a reason or sign, a symptom."""

WORK: Final[frozenset[Part]] = frozenset({"work", "check", "advice"})
"""Where work may be asked for."""
UNSAFE: Final = frozenset(
    {
        *("defeats-safety-device", "pressure-heat", "ignition-voltage", "closed-room", "moving-parts", "fuel-flame"),
        *("jacking", "hydraulics", "battery-running", "charging-unwatched", "riding-test"),
    }
)
"""Kinds of danger that no text may ask for; the others are wrong only beside certain keys."""
_STATES: Final[Mapping[BikeState, tuple[str, ...]]] = {
    "off": ("stopped",),
    "key-on": ("stopped",),
    "cranking": ("running",),
    "running": ("running",),
    "riding": (),
}
"""What the key `bike` says, by the names of the vocabulary's file. What is ridden stands before and after."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkText:
    """One text of an entry."""

    path: str
    """File of the entry."""
    pointer: str
    """JSON pointer of the text."""
    text: str
    """As the author wrote it."""
    part: Part
    """What it is about."""
    bike: BikeState | None = None
    """Of a check: how the machine is."""
    describes: bool = False
    """It says how things are; only what has the form of an order asks for something there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A danger that a text asks for."""

    where: WorkText
    """The text."""
    words: str
    """Its words that ask for it."""


def texts_of(fault: Fault) -> Iterator[WorkText]:
    """Every text of an entry that may ask for something, in the order of the file's keys."""
    path = fault.path
    advice = fault.ride_advice
    for number, symptom in enumerate(fault.symptoms):
        yield WorkText(path=path, pointer=f"/symptoms/{number}", text=symptom, part="symptom")
    if advice is not None and advice.why:
        yield WorkText(path=path, pointer=f"{advice.at}/why", text=advice.why, part="advice", describes=True)
    for cause in fault.causes:
        # A summary says what is broken ("radiator cap open") and asks nobody for anything; nor do signs to stop at, and
        # what is expected.
        if cause.fix is not None:
            yield from _of_fix(path, cause.fix)
    for check in fault.checks:
        yield from _of_check(path, check)


def _of_fix(path: str, fix: Fix) -> Iterator[WorkText]:
    if fix.summary:
        yield WorkText(path=path, pointer=f"{fix.at}/summary", text=fix.summary, part="work")
    if fix.verify is not None and fix.verify.do:
        yield WorkText(path=path, pointer=f"{fix.at}/verify/do", text=fix.verify.do, part="work")


def _of_check(path: str, check: Check) -> Iterator[WorkText]:
    if check.do:
        yield WorkText(path=path, pointer=f"{check.at}/do", text=check.do, part="check", bike=check.bike)


def dangers_in(tables: Tables, texts: Iterable[WorkText]) -> Iterator[tuple[str, Asked]]:
    """Each danger that the texts ask for, by kind."""
    reader = unsafe_reader(tables)
    for each in texts:
        states = _STATES[each.bike] if each.bike is not None else ()
        for danger in reader.dangers(each.text, states, bare=each.describes):
            yield danger.kind, Asked(where=each, words=danger.words)


@per_base
def asked_for(base: KnowledgeBase) -> Mapping[str, tuple[Asked, ...]]:
    """Kind of danger → where a fault that nobody has withdrawn asks for it, in the order of the files."""
    found: dict[str, list[Asked]] = {}
    for fault in living(base).values():
        for kind, asked in dangers_in(base.tables, texts_of(fault)):
            found.setdefault(kind, []).append(asked)
    return {kind: tuple(rows) for kind, rows in found.items()}


def told(kind: str, says: str, hint: str) -> RuleCheck:
    """The check of a rule about one kind of danger.

    Args:
        kind: as the vocabulary's file calls it.
        says: what is wrong, to stand behind the words of the text.
        hint: what to do about it.
    """

    def check(base: KnowledgeBase, _today: object) -> Iterator[Breach]:
        for asked in asked_for(base).get(kind, ()):
            if asked.where.part in WORK:
                yield breach(asked, says, hint)

    return check


def until_read_twice(check: RuleCheck) -> RuleCheck:
    """The check of a kind that words tell less surely: it asks for a second reader, and is silent once there is one."""

    def asking(base: KnowledgeBase, today: dt.date) -> Iterator[Breach]:
        read = {fault.path for fault in living(base).values() if read_twice(fault)}
        return (each for each in check(base, today) if each.path not in read)

    return asking


def breach(asked: Asked, says: str, hint: str) -> Breach:
    """The finding at a text: its words, and what is wrong with them."""
    message = f'"{short(asked.words)}": {says}'
    return Breach(path=asked.where.path, pointer=asked.where.pointer, message=message, hint=hint)


def asks(bad: str, good: str) -> Sample:
    """The sample of a rule about one kind of danger: what a check asks for, wrong and right."""
    return Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="Pull the plug and look for green terminals.",
        bad=f'"{bad}"',
        good=f'"{good}"',
    )
