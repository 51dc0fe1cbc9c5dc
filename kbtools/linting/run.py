"""Run every rule over a knowledge base, put what they find in its place, and take out what the club accepts."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from kbtools.diagnostics import START, Finding, Mark, in_order
from kbtools.linting.accepted import Place, accept
from kbtools.model.base import KnowledgeBase
from kbtools.reading.places import Document
from kbtools.reading.reader import Reading
from kbtools.rules.rule import Breach, Rule

MOST_BREACHES: Final = 10_000
"""Of one rule. More would be read by nobody, and take the memory."""
_OURS = "This is a mistake in kbtools, not in the entry; report it with the file."


@dataclass(frozen=True, slots=True, kw_only=True)
class Linted:
    """What is wrong with a knowledge base."""

    findings: tuple[Finding, ...]
    """In order, without those that the club accepts."""
    accepted: tuple[Finding, ...]
    """Those that `accepted.yml` has taken out, in order."""
    looked_at: tuple[str, ...] = ()
    """The files that were looked at, relative to the knowledge base's folder; empty where nobody asked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rulebook:
    """Every rule. `kbtools/edges/rulebook.py` finds them by the names of their modules."""

    rules: tuple[Rule, ...]
    """Those that could be loaded, by code."""
    broken: Mapping[str, Finding]
    """A finding for each module that could not, by the code that its name gives."""


def lint(reading: Reading, rulebook: Rulebook, today: dt.date) -> list[Finding]:
    """Everything that is wrong with a knowledge base and that the club does not accept, in order.

    Args:
        reading: what was read, with the findings about its form.
        rulebook: all rules.
        today: the day from which the next one is the future.
    """
    return list(examine(reading, rulebook, today).findings)


def examine(reading: Reading, rulebook: Rulebook, today: dt.date) -> Linted:
    """The same, with what the club accepts beside it."""
    found: list[tuple[Finding, str | None]] = [(each, None) for each in (*rulebook.broken.values(), *reading.findings)]
    broken = set(rulebook.broken)
    patient = {rule.code for rule in rulebook.rules if rule.of_sound_files}
    beside: dict[Finding, str] = {}
    for rule in rulebook.rules:
        ran = _run(rule, reading, today)
        found += ran.found
        beside |= ran.beside
        if ran.broke:
            broken.add(rule.code)
    flawed = {finding.path for finding, _ in found if finding.severity == "error"}
    places = [
        Place(finding=finding, pointer=pointer)
        for finding, pointer in found
        if finding.rule not in patient or flawed.isdisjoint({finding.path, beside.get(finding, finding.path)})
    ]
    accepting = accept(reading, places, {rule.code for rule in rulebook.rules} | broken, broken)
    return Linted(findings=tuple(in_order(accepting.left)), accepted=tuple(in_order(accepting.taken)))


def examine_change(before: KnowledgeBase, reading: Reading, rulebook: Rulebook) -> list[Finding]:
    """What the change from an earlier state is answerable for, and neither state shows by itself.

    Args:
        before: the earlier state.
        reading: the state now.
        rulebook: all rules.
    """
    found = []
    for rule in rulebook.rules:
        if rule.compare is not None:
            try:
                breaches = itertools.islice(rule.compare(before, reading.base), MOST_BREACHES)
                found += [_placed(rule, each, reading.documents) for each in breaches]
            except Exception as error:
                found.append(broke(f"Rule {rule.code} broke down: {type(error).__name__}: {error}."))
    return in_order(found)


def broke(message: str) -> Finding:
    """The finding that a rule does not work."""
    return Finding(rule="KB001", severity="error", path="club.yml", mark=START, message=message, hint=_OURS)


def _more(rule: Rule) -> Finding:
    message = f"{rule.code} has found more than the {MOST_BREACHES:,} places that are shown."
    hint = "Mend some of them, and check again; perhaps one mistake is behind them all."
    return Finding(rule="KB002", severity="warning", path="club.yml", mark=START, message=message, hint=hint)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ran:
    """What came of running one rule."""

    found: tuple[tuple[Finding, str | None], ...]
    """Findings with the pointer of each."""
    beside: Mapping[Finding, str] = field(default_factory=dict)
    """The other file of a finding that is about two."""
    broke: bool = False
    """What else it would have found is not known."""


def run(rule: Rule, reading: Reading, today: dt.date) -> list[Finding]:
    """What one rule finds; if it crashes, that is the finding: the others still count."""
    return [finding for finding, _ in _run(rule, reading, today).found]


def _run(rule: Rule, reading: Reading, today: dt.date) -> _Ran:
    if rule.check is None:
        return _Ran(found=())
    try:
        # File by file, since a file is parsed again to place what is found in it.
        breaches = rule.check(reading.base, today)
        found = sorted(itertools.islice(breaches, MOST_BREACHES), key=lambda each: each.path)
        placed = [(_placed(rule, each, reading.documents), each) for each in found]
        cut = next(breaches, None) is not None
        more = [(_more(rule), None)] if cut else []
        return _Ran(
            found=(*((finding, each.pointer) for finding, each in placed), *more),
            broke=cut,
            beside={finding: each.beside for finding, each in placed if each.beside is not None},
        )
    except Exception as error:
        failed = broke(f"Rule {rule.code} broke down: {type(error).__name__}: {error}.")
        return _Ran(found=((failed, None),), broke=True)


def _placed(rule: Rule, found: Breach, documents: Mapping[str, Document]) -> Finding:
    return Finding(
        rule=rule.code,
        severity=rule.severity,
        path=found.path,
        mark=_mark(found, documents.get(found.path)),
        message=found.message,
        hint=found.hint,
    )


def _mark(found: Breach, document: Document | None) -> Mark:
    if document is None:
        return START
    if found.index is not None:
        return document.index(found.index)
    if found.pointer == "":
        return START
    if found.piece and not found.at_key:
        return document.piece(found.pointer, found.piece)
    return document.key(found.pointer) if found.at_key else document.value(found.pointer)
