"""KB326: cause or check in a case that names no fault."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import cases, faults_by_cause
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import UNLISTED, Case
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Causes and fixes of a case without a fault: they are ids within a fault, and say nothing alone."""
    for case in cases(base):
        if case.fault is None and case.damaged.isdisjoint({"", "/fault"}):
            yield from _of(case, base)


def _of(case: Case, base: KnowledgeBase) -> Iterator[Breach]:
    cause = case.outcome.cause
    if cause is not None and cause != UNLISTED:
        message = f'The cause "{short(cause)}" is one of a fault, and the case names none.'
        having = faults_by_cause(base).get(cause, ())
        known = f" It is a cause of: {', '.join(having[:3])}." if having else ""
        hint = f"Add `fault: …`, or write `cause: unlisted` with a note.{known}"
        yield Breach(path=case.path, pointer="/outcome/cause", message=message, hint=hint)
        return
    for tried in case.tried:
        if tried.fix is not None:
            message = f'The fix "{short(tried.fix)}" is one of a fault, and the case names none.'
            hint = "Add `fault: …`, or say in the outcome's note what was done."
            yield Breach(path=case.path, pointer=f"{tried.at}/fix", message=message, hint=hint)
            return


RULE = Rule(
    code="KB326",
    title="Cause without a fault",
    severity="error",
    what="A case that names a cause, or a fix that was tried, and no fault of which it would be one.",
    why="The case counts for nothing, although it was solved.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="fault: lamp-flickers\ntried:\n  - {check: look-at-plug, result: unclear}\n",
        bad="tried:\n",
        good="fault: lamp-flickers\ntried:\n",
    ),
    check=check,
)
