"""Findings as lines that a person reads, and editors jump to: `path:line:column: RULE severity: message`."""

from __future__ import annotations

from collections.abc import Sequence

from kbtools.diagnostics import Finding


def render(findings: Sequence[Finding]) -> str:
    """One line a finding, its hint below it, and a closing line that counts.

    A message may quote the author; control characters in it are shown, not sent to the terminal.
    """
    lines = []
    for finding in findings:
        place = f"{finding.path}:{finding.mark.line}:{finding.mark.column}"
        lines.append(f"{_shown(place)}: {finding.rule} {finding.severity}: {_shown(finding.message)}")
        lines.append(f"    {_shown(finding.hint)}")
    return "\n".join([*lines, summary(findings)]) + "\n"


def summary(findings: Sequence[Finding]) -> str:
    """Say how many of each severity there are, as in "2 errors, 1 warning."."""
    counts = [(sum(finding.severity == each for finding in findings), each) for each in ("error", "warning")]
    words = [f"{count} {severity}{'' if count == 1 else 's'}" for count, severity in counts if count]
    return f"{', '.join(words)}." if words else "Nothing to mend."


def _shown(text: str) -> str:
    return "".join(each if each.isprintable() else f"\\u{ord(each):04x}" for each in text)
