"""Findings as workflow commands, which GitHub shows at the lines of a pull request.

Source of the form and of the escapes: GitHub's documentation of workflow commands for GitHub Actions.
"""

from __future__ import annotations

from collections.abc import Sequence

from kbtools.diagnostics import Finding, Mark
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


def command(severity: str, path: str, mark: Mark, title: str, message: str) -> str:
    """One command that shows a message at a line; every text in it may be an author's."""
    properties = {"file": shown(path), "line": str(mark.line), "col": str(mark.column), "title": title}
    # Nothing that an author wrote reaches the log unescaped: a line of its own there could be another command.
    told = ",".join(f"{name}={value.translate(_PROPERTY)}" for name, value in properties.items())
    return f"::{severity} {told}::{message.translate(_DATA)}"


def _command(finding: Finding, title: str | None) -> str:
    named = finding.rule if title is None else f"{finding.rule}: {title}"
    message = f"{shown(finding.message)}\n{shown(finding.hint)}"
    return command(finding.severity, finding.path, finding.mark, named, message)
