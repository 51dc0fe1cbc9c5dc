"""KB708: what three cases found, and the entry does not say."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Iterator, Mapping, Sequence

from kbtools.index.cases import cases_known, cases_naming
from kbtools.index.entries import published
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import UNLISTED, Case
from kbtools.model.fault import Cause, Fault
from kbtools.rules.rule import Breach, Rule
from kbtools.text.short import short
from kbtools.vocabulary.stems import sequence, telling

_ENOUGH = 3
"""Cases from which it is no chance."""
_SHARED = 2
"""Telling words that notes of the same thing have in common."""
_MOST = 30
"""Words of a note, and notes of a fault, that are looked at: a note may be of any length."""


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Causes that no entry lists and three cases share, and causes that are found beside another one three times."""
    if not cases_known(base):
        return
    named = cases_naming(base)
    for fault in published(base).values():
        cases = [each for each in named.get(fault.id, ()) if each.outcome.state in {"solved", "returned"}]
        if len(cases) >= _ENOUGH and fault.ids_known("causes"):
            yield from _unlisted(fault, cases)
            yield from _beside(fault, cases)


def _unlisted(fault: Fault, cases: Sequence[Case]) -> Iterator[Breach]:
    known = set(sequence(" ".join((fault.title, *fault.symptoms))))
    by_words: dict[tuple[str, ...], list[Case]] = {}
    unlisted = [each for each in cases if each.outcome.cause == UNLISTED and each.outcome.note]
    for case in unlisted[:_MOST]:
        words = sorted(set(telling(sequence(case.outcome.note or ""))) - known)[:_MOST]
        for pair in itertools.combinations(words, _SHARED):
            by_words.setdefault(pair, []).append(case)
    found = max(by_words.values(), key=len, default=[])
    if len(found) >= _ENOUGH:
        note = short(found[0].outcome.note or "")
        message = f'{_count(found)} ended with the same cause that is not listed here: "{note}"'
        hint = "Add it as a cause of its own, and name it in these cases in place of `unlisted`."
        yield Breach(path=fault.path, pointer="/causes", message=message, hint=hint, at_key=True)


def _beside(fault: Fault, cases: Sequence[Case]) -> Iterator[Breach]:
    listed: Mapping[str, Cause] = {cause.id: cause for cause in fault.causes}
    found: dict[tuple[str, str], list[Case]] = {}
    for case in cases:
        first = case.outcome.cause
        for other in dict.fromkeys(case.outcome.also):
            if first is not None and first in listed and other in listed and first != other:
                found.setdefault((first, other), []).append(case)
    for (first, other), together in found.items():
        if len(together) >= _ENOUGH and other not in listed[first].often_with:
            message = f'{_count(together)} found "{other}" beside "{first}", and the cause does not say so.'
            hint = f"Write `often_with: [{other}]` there, or make one cause of the two."
            yield Breach(path=fault.path, pointer=listed[first].at, message=message, hint=hint)


def _count(cases: Sequence[Case]) -> str:
    ids = ", ".join(each.id for each in cases[:_ENOUGH])
    return f"{len(cases)} cases ({ids}{', …' if len(cases) > _ENOUGH else ''})"


RULE = Rule(
    code="KB708",
    title="Cause that three cases share",
    severity="warning",
    what=(
        "A published entry with three cases or more whose cause is `unlisted` and whose notes have two telling words "
        "in common, or with three in which one cause was found beside another that does not name it in `often_with`."
    ),
    why="What three owners have found by themselves the fourth one still has to, since no page says it.",
    sample=None,
    check=check,
)
