"""Findings as lines that a person reads, and editors jump to: `path:line:column: RULE severity: message`.

Below it stand the hint and the line of the file with the place marked. A terminal gets the same words as a pipe or a
file does, in colours.
"""

from __future__ import annotations

from collections.abc import Sequence

import click

from kbtools.diagnostics import Finding
from kbtools.report.context import PLAIN, ReportContext
from kbtools.report.excerpt import quoted
from kbtools.text.terminal import shown

_COLOURS = {"error": "red", "warning": "yellow"}


def render(findings: Sequence[Finding], context: ReportContext = PLAIN) -> str:
    """One line a finding, its hint and its place below it, and a closing line that counts.

    A message may quote the author; control characters in it are shown, not sent to the terminal.
    """
    lines = [line for finding in findings for line in _finding(finding, context)]
    lines.append(_style(summary(findings, context.accepted), context, bold=True))
    if context.looked_at:
        lines.append(f"Looked at {_kinds(context.looked_at)}.")
    return "\n".join(lines) + "\n"


def place_and_message(finding: Finding) -> tuple[str, str]:
    """The two lines that every finding has: place, rule and message; and the hint."""
    place = f"{finding.path}:{finding.mark.line}:{finding.mark.column}"
    return f"{shown(place)}: {finding.rule} {finding.severity}: {shown(finding.message)}", shown(finding.hint)


def summary(findings: Sequence[Finding], accepted: int = 0) -> str:
    """Say how much there is, and how to learn more: "2 errors, 1 warning in 1 file. About a rule: kbtools …".

    Args:
        findings: what is shown.
        accepted: how many more the club accepts, which are not shown.
    """
    counts = [(sum(finding.severity == each for finding in findings), each) for each in ("error", "warning")]
    words = [_count(count, severity) for count, severity in counts if count]
    if not words:
        return f"Nothing to mend{f'; {accepted} accepted' if accepted else ''}."
    files = _count(len({finding.path for finding in findings}), "file")
    more = f"; {accepted} accepted" if accepted else ""
    return f"{', '.join(words)} in {files}{more}. About a rule: kbtools rules {findings[0].rule}"


def _kinds(paths: Sequence[str]) -> str:
    """How many files of each kind: "46 faults, 330 cases and 24 other files"."""
    counts = {kind: sum(path.startswith(f"{kind}s/") for path in paths) for kind in ("fault", "case")}
    told = ", ".join(_count(number, kind) for kind, number in counts.items())
    return f"{told} and {_count(len(paths) - sum(counts.values()), 'other file')}"


def _finding(finding: Finding, context: ReportContext) -> list[str]:
    said, hint = place_and_message(finding)
    colour = _COLOURS[finding.severity]
    if context.colour:
        place, rule = shown(f"{finding.path}:{finding.mark.line}:{finding.mark.column}:"), finding.rule
        told = _style(f"{rule} {finding.severity}:", context, fg=colour, bold=True)
        said = f"{_style(place, context, bold=True)} {told} {shown(finding.message)}"
    lines = [said, f"    {hint}"]
    quote = quoted(context.lines(finding.path), finding.mark, context.width)
    if quote is not None:
        number, line, caret = quote
        lines.append(f"{_style(number, context, fg='cyan')}{line}".rstrip())
        lines.append(f"{_style('      | ', context, fg='cyan')}{_style(caret, context, fg=colour, bold=True)}")
        lines.append("")
    return lines


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


def _style(text: str, context: ReportContext, *, fg: str | None = None, bold: bool = False) -> str:
    return click.style(text, fg=fg, bold=bold) if context.colour else text
