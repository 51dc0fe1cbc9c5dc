"""What a check reports: findings with a rule, a place, what is wrong and what to do about it.

Findings are values. They are collected by whoever finds them and printed only at the doors (`kbtools.cli`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

Severity = Literal["error", "warning"]


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Mark:
    """A place in a text file, as an editor shows it."""

    line: int
    """1-based; a line ends at LF, CR LF or CR, as editors count, not at the further breaks of YAML 1.1."""
    column: int
    """1-based, in code points."""


START = Mark(line=1, column=1)
"""The place of a finding about a whole file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing that is wrong at one place."""

    rule: str
    """Rule id, `KB` and three digits; its text is in `kbtools.rules`."""
    severity: Severity
    """`error` stops a build, `warning` does not."""
    path: str
    """POSIX path, relative to the knowledge base's folder until an edge makes it relative to the current directory."""
    mark: Mark
    """Where in the file; `START` for the whole file."""
    message: str
    """What is wrong, one sentence, the value of the author quoted."""
    hint: str
    """What to do about it, one sentence."""

    @property
    def order(self) -> tuple[str, int, int, str, str]:
        """Sort key: path, line, column, rule, message. The same findings always come in the same order."""
        return (self.path, self.mark.line, self.mark.column, self.rule, self.message)


def as_finding(row: Mapping[str, Any]) -> Finding:
    """A finding that `dataclasses.asdict` took apart."""
    return Finding(**{**row, "mark": Mark(**row["mark"])})


def in_order(findings: list[Finding]) -> list[Finding]:
    """The findings sorted by place, each once."""
    return sorted(dict.fromkeys(findings), key=lambda finding: finding.order)


def has_errors(findings: list[Finding]) -> bool:
    """Whether any finding stops a build."""
    return any(finding.severity == "error" for finding in findings)
