"""Run every rule over a knowledge base and put what they find in its place."""

from __future__ import annotations

import datetime as dt
import functools
import importlib
import pkgutil
from collections.abc import Mapping

from kbtools import rules
from kbtools.diagnostics import START, Finding, Mark, in_order
from kbtools.reading.places import Document
from kbtools.reading.reader import Reading
from kbtools.rules.rule import Found, Rule


@functools.cache
def all_rules() -> tuple[Rule, ...]:
    """Every rule of the package, by code. A module of `kbtools.rules` whose name starts with `kb` is a rule."""
    names = [each.name for each in pkgutil.iter_modules(rules.__path__) if each.name.startswith("kb")]
    found = [importlib.import_module(f"{rules.__name__}.{name}").RULE for name in names]
    return tuple(sorted(found, key=lambda rule: rule.code))


def lint(reading: Reading, today: dt.date) -> list[Finding]:
    """Everything that is wrong with a knowledge base, in order.

    Args:
        reading: what was read, with the findings about its form.
        today: the day from which the next one is the future.
    """
    findings = list(reading.findings)
    for rule in all_rules():
        findings += run(rule, reading, today)
    return in_order(findings)


def run(rule: Rule, reading: Reading, today: dt.date) -> list[Finding]:
    """What one rule finds; if it crashes, that is the finding: the others still count."""
    if rule.check is None:
        return []
    try:
        # File by file, since a file is parsed again to place what is found in it.
        found = sorted(rule.check(reading.base, today), key=lambda each: each.path)
        return [_placed(rule, each, reading.documents) for each in found]
    except Exception as error:
        message = f"Rule {rule.code} broke down: {type(error).__name__}: {error}."
        hint = "This is a mistake in kbtools, not in the entry; report it with the file."
        return [Finding(rule="KB001", severity="error", path="club.yml", mark=START, message=message, hint=hint)]


def _placed(rule: Rule, found: Found, documents: Mapping[str, Document]) -> Finding:
    return Finding(
        rule=rule.code,
        severity=rule.severity,
        path=found.path,
        mark=_mark(found, documents.get(found.path)),
        message=found.message,
        hint=found.hint,
    )


def _mark(found: Found, document: Document | None) -> Mark:
    if document is None:
        return START
    if found.index is not None:
        return document.index(found.index)
    if found.pointer == "":
        return START
    return document.key(found.pointer) if found.at_key else document.value(found.pointer)
