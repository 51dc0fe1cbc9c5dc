"""KB631: check that stands in several entries."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from typing import Final

from kbtools.index.checks import meanings, own_checks
from kbtools.index.entries import living
from kbtools.index.words import vocabulary
from kbtools.model.base import KnowledgeBase
from kbtools.model.check import Check
from kbtools.model.fault import Fault
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.similarity.lexicon import Bag, Lexicon
from kbtools.text.short import short

_SAME: Final = 0.8
"""Likeness of what is done from which two checks with the same answer in the same state are one."""
_LOOKED_AT: Final = 8
"""With so many earlier ones of the same answer a check is compared, so that the work grows no faster than the base."""

Written = tuple[Fault | None, Check]
"""A check and its entry; None: a shared one."""


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Checks of which another entry, or checks.yml, has one that says the same; the later one is told of."""
    groups = [group for group in _groups(base) if len(group) > 1]
    if not groups:
        return
    known = vocabulary(base)
    texts = ([each.do or ""] for group in groups for _, each in group)
    lexicon = Lexicon(texts, known.equals, known.like, known.settled)
    bags: dict[str, Bag | None] = {}
    for group in groups:
        # Each is looked into once, with however many it is compared.
        bags.update({text: lexicon.bag([text]) for _, each in group if (text := each.do or "") not in bags})
    for group in groups:
        for place, (fault, each) in enumerate(group):
            if fault is None:
                continue
            earlier = group[: min(place, _LOOKED_AT)]
            twin = next((other for other in earlier if _says_the_same(fault, each, other, bags, lexicon)), None)
            if twin is not None:
                yield _breach(fault, each, *twin)


def _groups(base: KnowledgeBase) -> Iterator[list[Written]]:
    """Checks with the same answer in the same state of the bike, the shared ones first."""
    found: dict[tuple[str, ...], list[Written]] = {}
    shared: list[Written] = [(None, each.check) for each in base.checks.values() if each.whole]
    own: list[Written] = [(fault, each) for fault in living(base).values() for each in own_checks(fault)]
    for row in (*shared, *own):
        answer = _answer(row[1])
        if answer is not None:
            found.setdefault((row[1].bike, *answer), []).append(row)
    yield from found.values()


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


def _says_the_same(
    fault: Fault, check: Check, other: Written, bags: Mapping[str, Bag | None], lexicon: Lexicon
) -> bool:
    if other[0] is not None and other[0].id == fault.id:
        return False
    one, two = bags[check.do or ""], bags[other[1].do or ""]
    if one is None or two is None:
        return _plain(check.do) == _plain(other[1].do)
    return lexicon.alike(one, two) >= _SAME


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
)
