"""Findings as workflow commands, which GitHub shows at the lines of a pull request.

Source of the form and of the escapes: GitHub's documentation of workflow commands for GitHub Actions.
"""

from __future__ import annotations

from collections.abc import Sequence

from kbtools.diagnostics import Finding
from kbtools.report.context import PLAIN, ReportContext
from kbtools.report.text import summary
from kbtools.text.terminal import shown

_DATA = str.maketrans({"%": "%25", "\r": "%0D", "\n": "%0A"})
_PROPERTY = str.maketrans({"%": "%25", "\r": "%0D", "\n": "%0A", ":": "%3A", ",": "%2C"})


def render(findings: Sequence[Finding], context: ReportContext = PLAIN) -> str:
    """One command a finding, and a closing line that counts, which the job's log shows as it is."""
    titles = {rule.code: rule.title for rule in context.rules()}
    lines = [_command(finding, titles.get(finding.rule)) for finding in findings]
    return "\n".join([*lines, summary(findings, context.accepted)]) + "\n"


def _command(finding: Finding, title: str | None) -> str:
    properties = {
        "file": shown(finding.path),
        "line": str(finding.mark.line),
        "col": str(finding.mark.column),
        "title": finding.rule if title is None else f"{finding.rule}: {title}",
    }
    # Nothing that an author wrote reaches the log unescaped: a line of its own there could be another command.
    told = ",".join(f"{name}={value.translate(_PROPERTY)}" for name, value in properties.items())
    message = f"{shown(finding.message)}\n{shown(finding.hint)}".translate(_DATA)
    return f"::{finding.severity} {told}::{message}"
