"""Findings as SARIF 2.1.0, the exchange format of code checkers, for viewers and for hosts that keep results.

Source: OASIS Standard "Static Analysis Results Interchange Format (SARIF) Version 2.1.0", 27 March 2020. The numbers
of its sections stand beside what they ask for.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Sequence
from typing import Any
from urllib.parse import quote

from kbtools import __version__
from kbtools.diagnostics import Finding
from kbtools.report.context import PLAIN, ReportContext
from kbtools.rules.rule import Rule
from kbtools.text.terminal import json_text, shown

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
FINGERPRINT = "kbtoolsFinding/v1"
"""Name and version of the fingerprint, as 3.27.17 asks: what goes into it may change with the number only."""


def render(findings: Sequence[Finding], context: ReportContext = PLAIN) -> str:
    """One run with every rule and a result for each finding."""
    rules = context.rules()
    places = {rule.code: index for index, rule in enumerate(rules)}
    seen: Counter[tuple[str, str, str]] = Counter()
    results = []
    for finding in findings:
        key = (finding.rule, finding.path, finding.message)
        results.append(_result(finding, places.get(finding.rule), seen[key]))
        seen[key] += 1
    pages = context.rule_pages()
    driver = {"name": "kbtools", "version": __version__, "rules": [_rule(rule, pages) for rule in rules]}
    # 3.14.17: a column counts code points, not UTF-16 code units.
    run = {"tool": {"driver": driver}, "columnKind": "unicodeCodePoints", "results": results}
    log = {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}
    return json_text(log)


def _rule(rule: Rule, pages: str | None) -> dict[str, Any]:
    """A reportingDescriptor, 3.49."""
    described: dict[str, Any] = {
        "id": rule.code,
        "shortDescription": {"text": _message(rule.title)},
        "fullDescription": {"text": _message(rule.what)},
        "help": {"text": _message(f"{rule.what}\n\n{rule.why}")},
        "defaultConfiguration": {"level": rule.severity},
    }
    if pages is not None:
        described["helpUri"] = f"{pages}{rule.code.lower()}/"
    return described


def _message(text: str) -> str:
    """A plain text message, 3.11.3: braces stand for placeholders (3.11.5) and brackets for links (3.11.6)."""
    # An author's words must not become a link in the viewer, so its two halves are kept apart.
    return text.replace("{", "{{").replace("}", "}}").replace("](", "] (")


def _result(finding: Finding, rule_index: int | None, nth: int) -> dict[str, Any]:
    """A result, 3.27. `nth` tells findings apart that say the same of one file."""
    region = {"startLine": finding.mark.line, "startColumn": finding.mark.column}
    result: dict[str, Any] = {
        "ruleId": finding.rule,
        "level": finding.severity,
        "message": {"text": _message(f"{shown(finding.message)} {shown(finding.hint)}")},
        "locations": [{"physicalLocation": {"artifactLocation": {"uri": _uri(finding.path)}, "region": region}}],
        "partialFingerprints": {FINGERPRINT: _fingerprint(finding, nth)},
    }
    if rule_index is not None:
        result["ruleIndex"] = rule_index
    return result


def _uri(path: str) -> str:
    """A relative reference, 3.4.3; a name that is not UTF-8 keeps its bytes."""
    return quote(path, errors="surrogateescape")


def _fingerprint(finding: Finding, nth: int) -> str:
    """The same for the same finding after lines were added above it: no line or column is in it."""
    parts = (finding.rule, finding.path, finding.message, str(nth))
    return hashlib.sha256("\0".join(parts).encode("utf-8", "surrogatepass")).hexdigest()[:32]
