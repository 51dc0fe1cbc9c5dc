"""Run every rule over a knowledge base, put what they find in its place, and take out what the club accepts."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Mapping
from dataclasses import dataclass

from kbtools.diagnostics import Finding, in_order
from kbtools.linting.accepted import Place, accept
from kbtools.linting.by_file import by_file
from kbtools.linting.kept_places import KeptPlaces
from kbtools.linting.one_rule import MOST_BREACHES, Found, carried_out, crashed, in_documents, placed_at
from kbtools.model.base import KnowledgeBase
from kbtools.model.memory import Memory
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


def examine(reading: Reading, rulebook: Rulebook, today: dt.date, memory: Memory | None = None) -> Linted:
    """The same, with what the club accepts beside it.

    A memory is asked first for what is dear and an edit seldom changes; it changes nothing but the time it takes.
    """
    found = [Found(finding=each) for each in (*rulebook.broken.values(), *reading.findings)]
    broken = set(rulebook.broken)
    patient = {rule.code for rule in rulebook.rules if rule.of_sound_files}
    alone = by_file(reading, rulebook.rules, today, memory)
    places_kept = KeptPlaces(reading, memory)
    for rule in rulebook.rules:
        ran = alone.get(rule.code) or carried_out(rule, reading.base, today, places_kept.mark, memory)
        found += ran.found
        if ran.broke:
            broken.add(rule.code)
    places_kept.keep()
    flawed = {each.finding.path for each in found if each.finding.severity == "error"}
    places = [
        Place(finding=each.finding, pointer=each.pointer)
        for each in found
        if each.finding.rule not in patient or flawed.isdisjoint({each.finding.path, each.beside or each.finding.path})
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
    alone = by_file(reading, [rule], today).get(rule.code)
    ran = alone or carried_out(rule, reading.base, today, in_documents(reading.documents))
    return [each.finding for each in ran.found]
