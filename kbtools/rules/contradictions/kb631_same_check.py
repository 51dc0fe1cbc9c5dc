"""KB631: check that stands in several entries."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, Final

from kbtools.index.checks import meanings, own_checks
from kbtools.index.entries import living
from kbtools.index.narrowed import lists_digest
from kbtools.index.words import vocabulary
from kbtools.model.base import KnowledgeBase
from kbtools.model.check import Check
from kbtools.model.fault import Fault
from kbtools.model.memory import Memory, shaped
from kbtools.model.pool import key
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.similarity.lexicon import Bag, Lexicon
from kbtools.text.short import short

_SAME: Final = 0.8
"""Likeness of what is done from which two checks with the same answer in the same state are one."""
_TWINS: Final = "checks that say the same"
_LOOKED_AT: Final = 8
"""With so many earlier ones of the same answer a check is compared, so that the work grows no faster than the base."""

Written = tuple[Fault | None, Check]
"""A check and its entry; None: a shared one."""


def check(base: KnowledgeBase, _today: dt.date, memory: Memory | None = None) -> Iterator[Breach]:
    """Checks of which another entry, or checks.yml, has one that says the same; the later one is told of."""
    rows = _rows(base)
    asked = key(lists_digest(base), *map(_seen, rows)) if memory is not None else b""
    twins = (
        shaped(memory.worked_out(_TWINS, asked), lambda kept: _pairs(kept, len(rows))) if memory is not None else None
    )
    if twins is None:
        twins = list(_twins(base, rows))
        if memory is not None:
            memory.keep_worked_out(_TWINS, asked, twins)
    for later, earlier in twins:
        fault, each = rows[later]
        if fault is not None:
            yield _breach(fault, each, *rows[earlier])


def _pairs(numbers: Any, rows: int) -> list[tuple[int, int]]:
    found = [(later, earlier) for later, earlier in numbers]
    if not all(0 <= earlier < later < rows for later, earlier in found):
        raise ValueError
    return found


def _rows(base: KnowledgeBase) -> list[Written]:
    """Every check that is compared, the shared ones first."""
    shared: list[Written] = [(None, each.check) for each in base.checks.values() if each.whole]
    return [*shared, *((fault, each) for fault in living(base).values() for each in own_checks(fault))]


def _seen(row: Written) -> bytes:
    """All that is compared of a check, and whose it is."""
    fault, check = row
    return repr((None if fault is None else fault.id, check.bike, check.do, _answer(check))).encode()


def _twins(base: KnowledgeBase, rows: Sequence[Written]) -> Iterator[tuple[int, int]]:
    """Numbers of a check and of an earlier one that says the same."""
    groups = [group for group in _groups(rows) if len(group) > 1]
    if not groups:
        return
    known = vocabulary(base)
    texts = ([rows[each][1].do or ""] for group in groups for each in group)
    words = _Words(Lexicon(texts, known.equals, known.like, known.settled))
    for group in groups:
        for place, number in enumerate(group):
            fault, each = rows[number]
            if fault is None:
                continue
            earlier = group[: min(place, _LOOKED_AT)]
            twin = next((other for other in earlier if _says_the_same(fault, each, rows[other], words)), None)
            if twin is not None:
                yield number, twin


def _groups(rows: Sequence[Written]) -> Iterable[list[int]]:
    """Numbers of the checks with the same answer in the same state of the bike."""
    found: dict[tuple[str, ...], list[int]] = {}
    for number, (_, check) in enumerate(rows):
        answer = _answer(check)
        if answer is not None:
            found.setdefault((check.bike, *answer), []).append(number)
    return found.values()


def _answer(check: Check) -> tuple[str, ...] | None:
    """What a good bike shows; None where the check does not say enough to be told from others."""
    reading = check.reading
    if check.do is None or (reading is None and check.expect is None):
        return None
    if reading is None:
        return (_plain(check.expect),)
    if reading.place is None or reading.good is None:
        return None
    return (_plain(reading.place), _plain(reading.when), reading.unit or "", f"{reading.good.low} {reading.good.high}")


def _plain(text: str | None) -> str:
    return " ".join((text or "").casefold().split()).rstrip(".")


class _Words:
    """The words of what is done; each text is looked into once, with however many it is compared."""

    def __init__(self, lexicon: Lexicon) -> None:
        self.lexicon = lexicon
        self._bags: dict[str, Bag | None] = {}

    def bag(self, text: str) -> Bag | None:
        if text not in self._bags:
            self._bags[text] = self.lexicon.bag([text])
        return self._bags[text]


def _says_the_same(fault: Fault, check: Check, other: Written, words: _Words) -> bool:
    if other[0] is not None and other[0].id == fault.id:
        return False
    if check.do == other[1].do:
        return True
    one, two = words.bag(check.do or ""), words.bag(other[1].do or "")
    if one is None or two is None:
        return _plain(check.do) == _plain(other[1].do)
    return words.lexicon.alike(one, two) >= _SAME


def _breach(fault: Fault, check: Check, other: Fault | None, twin: Check) -> Breach:
    row = _row(check, twin.id)
    if other is None:
        message = f'"{short(check.id)}" says the same as the shared check "{short(twin.id)}".'
        return Breach(path=fault.path, pointer=f"{check.at}/id", message=message, hint=f"Write instead: {row}.")
    message = f'"{short(check.id)}" says the same as "{short(twin.id)}" in {short(other.id)}.'
    hint = f"Move it to checks.yml as {short(twin.id)}, and use it in both; here: {row}."
    return Breach(path=fault.path, pointer=f"{check.at}/id", message=message, hint=hint, beside=other.path)


def _row(check: Check, shared_id: str) -> str:
    """The row that uses the shared check in the place of this one."""
    parts = [f"{key}: [{', '.join(causes)}]" for key, causes in meanings(check).items() if causes]
    return f"{{{', '.join([f'use: {shared_id}', *parts])}}}"


_CHECK = (
    "checks:\n  - id: rest\n    do: Key off and lamps off for ten minutes, then measure across the posts.\n"
    "    reading: {{at: battery posts, when: {}, good: [12.5, 12.9], unit: V}}\n  - {{use: battery-rest}}\n"
)

RULE = Rule(
    code="KB631",
    title="Check that stands in several entries",
    severity="warning",
    of_sound_files=True,
    what=(
        "A check that does the same as one of another entry or of checks.yml, in the same state of the bike and with "
        "the same answer."
    ),
    why="Whoever corrects one of them does not know of the other, and an owner is told to do it twice.",
    sample=Sample(
        path="faults/charging/battery-flat.yml",
        instead_of="checks: [{use: battery-rest}]\n",
        bad=_CHECK.format("at rest"),
        good=_CHECK.format("after a night"),
    ),
    check=check,
    check_with=check,
)
