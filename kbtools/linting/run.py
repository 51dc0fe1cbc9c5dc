"""Run every rule over a knowledge base, put what they find in its place, and take out what the club accepts."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from kbtools.diagnostics import Finding, in_order
from kbtools.linting.accepted import Place, accept
from kbtools.linting.by_file import by_file
from kbtools.linting.kept_places import KeptPlaces
from kbtools.linting.one_rule import MOST_BREACHES, Found, Ran, carried_out, crashed, in_documents, placed_at
from kbtools.model.base import KnowledgeBase
from kbtools.model.memory import Memory
from kbtools.model.second import Second, by_itself
from kbtools.reading.reader import Reading
from kbtools.rules.rule import Rule


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


def examine(
    reading: Reading,
    rulebook: Rulebook,
    today: dt.date,
    memory: Memory | None = None,
    second: Second = by_itself,
) -> Linted:
    """The same, with what the club accepts beside it.

    A memory is asked first for what is dear and an edit seldom changes, and a second process does what it can
    meanwhile; they change nothing but the time it takes.
    """
    found = [Found(finding=each) for each in (*rulebook.broken.values(), *reading.findings)]
    broken = set(rulebook.broken)
    patient = {rule.code for rule in rulebook.rules if rule.of_sound_files}
    for code, ran in _carried_out(reading, rulebook.rules, today, memory, second):
        found += ran.found
        if ran.broke:
            broken.add(code)
    flawed = {each.finding.path for each in found if each.finding.severity == "error"}
    places = [
        Place(finding=each.finding, pointer=each.pointer)
        for each in found
        if each.finding.rule not in patient or flawed.isdisjoint({each.finding.path, each.beside or each.finding.path})
    ]
    accepting = accept(reading, places, {rule.code for rule in rulebook.rules} | broken, broken)
    return Linted(findings=tuple(in_order(accepting.left)), accepted=tuple(in_order(accepting.taken)))


def _carried_out(
    reading: Reading, rules: Sequence[Rule], today: dt.date, memory: Memory | None, second: Second
) -> list[tuple[str, Ran]]:
    """What came of each rule, in their order."""
    places_kept = KeptPlaces(reading, memory)
    with by_file(reading, rules, today, memory, second) as looked_at:
        ran = {
            rule.code: carried_out(rule, reading.base, today, places_kept.mark, memory)
            for rule in rules
            if rule.alone is None
        }
        ran |= looked_at()
    places_kept.keep()
    return [(rule.code, ran[rule.code]) for rule in rules]


def examine_change(before: KnowledgeBase, reading: Reading, rulebook: Rulebook) -> list[Finding]:
    """What the change from an earlier state is answerable for, and neither state shows by itself.

    Args:
        before: the earlier state.
        reading: the state now.
        rulebook: all rules.
    """
    found = []
    place = in_documents(reading.documents)
    for rule in rulebook.rules:
        if rule.compare is not None:
            try:
                breaches = itertools.islice(rule.compare(before, reading.base), MOST_BREACHES)
                found += [placed_at(rule, each, place(each)) for each in breaches]
            except Exception as error:
                found.append(crashed(rule, error))
    return in_order(found)


def run(rule: Rule, reading: Reading, today: dt.date) -> list[Finding]:
    """What one rule finds; if it crashes, that is the finding: the others still count."""
    ((_, ran),) = _carried_out(reading, [rule], today, None, by_itself)
    return [each.finding for each in ran.found]
