"""Findings as JSON, for other programs."""

from __future__ import annotations

from collections.abc import Sequence

from kbtools.diagnostics import Finding
from kbtools.report.context import PLAIN, ReportContext
from kbtools.text.terminal import json_text


def render(findings: Sequence[Finding], context: ReportContext = PLAIN) -> str:  # noqa: ARG001 - all formats are called alike
    """A list of objects: `rule`, `severity`, `path`, `line`, `column`, `message`, `hint`."""
    rows = [
        {
            "rule": finding.rule,
            "severity": finding.severity,
            "path": finding.path,
            "line": finding.mark.line,
            "column": finding.mark.column,
            "message": finding.message,
            "hint": finding.hint,
        }
        for finding in findings
    ]
    return json_text(rows)
