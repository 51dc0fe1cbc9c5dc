"""One rule carried out over a base: its breaches put in their places in the files."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from kbtools.diagnostics import START, Finding, Mark
from kbtools.model.base import KnowledgeBase
from kbtools.model.memory import Memory
from kbtools.reading.places import Document
from kbtools.rules.rule import Breach, Rule

MOST_BREACHES: Final = 10_000
"""Of one rule. More would be read by nobody, and take the memory."""
_OURS = "This is a mistake in kbtools, not in the entry; report it with the file."


Place = Callable[[Breach], Mark]
"""Where a breach stands in its file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A finding, and what is known of it beside what is shown."""

    finding: Finding
    """As it is reported."""
    pointer: str | None = None
    """JSON pointer in its file; None where reading has found it."""
    beside: str | None = None
    """The other file of a finding that is about two."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ran:
    """What came of running one rule."""

    found: tuple[Found, ...]
    """By file; those of one file as the rule gave them."""
    broke: bool = False
    """What else it would have found is not known."""


def carried_out(
    rule: Rule,
    base: KnowledgeBase,
    today: dt.date,
    place: Place,
    memory: Memory | None = None,
) -> Ran:
    """What one rule finds; if it crashes, that is the finding: the others still count.

    Args:
        rule: the rule.
        base: what it looks at.
        today: the day from which the next one is the future.
        place: tells where a breach stands.
        memory: for a rule whose work is dear.
    """
    if rule.check is None:
        return Ran(found=())
    try:
        # File by file, since a file is parsed again to place what is found in it.
        breaches = rule.check(base, today) if rule.check_with is None else rule.check_with(base, today, memory)
        found = sorted(itertools.islice(breaches, MOST_BREACHES), key=lambda each: each.path)
        placed = [
            Found(finding=placed_at(rule, each, place(each)), pointer=each.pointer, beside=each.beside)
            for each in found
        ]
        if next(breaches, None) is None:
            return Ran(found=tuple(placed))
        return Ran(found=(*placed, Found(finding=_more(rule))), broke=True)
    except Exception as error:
        return Ran(found=(Found(finding=crashed(rule, error)),), broke=True)


def crashed(rule: Rule, error: Exception) -> Finding:
    """The finding that a rule broke down."""
    return broke(f"Rule {rule.code} broke down: {type(error).__name__}: {error}.")


def broke(message: str) -> Finding:
    """The finding that a rule does not work."""
    return Finding(rule="KB001", severity="error", path="club.yml", mark=START, message=message, hint=_OURS)


def _more(rule: Rule) -> Finding:
    message = f"{rule.code} has found more than the {MOST_BREACHES:,} places that are shown."
    hint = "Mend some of them, and check again; perhaps one mistake is behind them all."
    return Finding(rule="KB002", severity="warning", path="club.yml", mark=START, message=message, hint=hint)


def placed_at(rule: Rule, found: Breach, mark: Mark) -> Finding:
    """The finding of a breach at its line and column."""
    return Finding(
        rule=rule.code,
        severity=rule.severity,
        path=found.path,
        mark=mark,
        message=found.message,
        hint=found.hint,
    )


def in_documents(documents: Mapping[str, Document]) -> Place:
    """Where breaches stand in files, by the paths of these."""
    return lambda breach: mark_of(breach, documents.get(breach.path))


def mark_of(found: Breach, document: Document | None) -> Mark:
    """Where a breach stands in its file."""
    if document is None:
        return START
    if found.index is not None:
        return document.index(found.index)
    if found.pointer == "":
        return START
    if found.piece and not found.at_key:
        return document.piece(found.pointer, found.piece)
    return document.key(found.pointer) if found.at_key else document.value(found.pointer)
