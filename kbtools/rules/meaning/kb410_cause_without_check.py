"""KB410: cause that no check points to."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.checks import answer_intact, checks_by_cause, pointed
from kbtools.index.entries import published
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Causes that no check points to."""
    for fault in published(base).values():
        if not fault.checks:
            yield from _without_any(fault)
        if not _checks_are_sound(fault):
            continue
        reached = checks_by_cause(fault)
        for cause in fault.causes:
            if cause.id not in reached:
                message = f'No check points to the cause "{short(cause.id)}"; it can only be reached by elimination.'
                hint = "Add a check that shows it, or name it in a check that does already."
                yield Breach(path=fault.path, pointer=f"{cause.at}/id", message=message, hint=hint)


def _without_any(fault: Fault) -> Iterator[Breach]:
    """An entry of which an owner could tell a cause, and has nothing to look at; a trial fix is a look of its own."""
    if not fault.ids_known("checks") or not fault.ids_known("causes"):
        return
    for cause in fault.causes:
        fix = cause.fix
        if fix is not None and fix.skill == "home" and not fix.trial:
            message = (
                f'The entry has no check: an owner could mend "{short(cause.id)}", and cannot tell that it is this.'
            )
            hint = (
                "Add one that an owner can do, like this: `checks:` and below it `- {id: look-at-it, do: …, expect: …, "
                f"points_to: [{short(cause.id)}], minutes: 5, skill: home}}`. Or say `trial: true` in the fix, where "
                "it is cheap and safe to do without proof."
            )
            yield Breach(path=fault.path, pointer=f"{cause.at}/id", message=message, hint=hint)
            return


def _checks_are_sound(fault: Fault) -> bool:
    """Whether there are checks and each points to causes that are there; if not, that is the mistake to mend."""
    ids = {cause.id for cause in fault.causes}
    answers = [pointed(check) for check in fault.checks]
    whole = fault.ids_known("checks") and all(answer_intact(fault, check) for check in fault.checks)
    return bool(answers) and whole and all(answer and ids.issuperset(answer) for answer in answers)


RULE = Rule(
    code="KB410",
    title="Cause that no check points to",
    severity="warning",
    what=(
        "A cause that none of the entry's checks points to; and an entry without any checks in which an owner could "
        "mend a cause, unless its fix is a trial."
    ),
    why=(
        "It can only be reached by elimination: after every check has come out good, the owner still does not know. "
        "Without any check all that is left is to hand the bike over."
    ),
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="checks:\n",
        bad=(
            "  - id: worn-cell\n    summary: Worn battery cell\n    fix: {summary: Fit a new battery., skill: "
            "home, labour_hours: 0.3}\nchecks:\n"
        ),
        good=(
            "  - id: worn-cell\n    summary: Worn battery cell\n    fix: {summary: Fit a new battery., skill: "
            "home, labour_hours: 0.3}\nchecks:\n  - {id: rest, do: Let it rest., expect: It holds., points_to: "
            "[worn-cell], minutes: 5, skill: home}\n"
        ),
    ),
    alone="any day",
    check=check,
)
