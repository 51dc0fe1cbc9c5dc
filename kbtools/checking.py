"""Reading and checking a knowledge base's folder in one go, as every door needs it."""

from __future__ import annotations

import dataclasses
import datetime as dt
import os
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from kbtools import collector
from kbtools.diagnostics import Finding, has_errors
from kbtools.lint import lint
from kbtools.model.base import KnowledgeBase
from kbtools.repository import load


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """A knowledge base and what is wrong with it."""

    base: KnowledgeBase
    """What was read."""
    findings: tuple[Finding, ...]
    """In order, paths relative to the current directory."""

    @property
    def sound(self) -> bool:
        """Whether it may be published: warnings do not count."""
        return not has_errors(list(self.findings))


def check(folder: Path, today: dt.date) -> Checked:
    """Read the knowledge base in a folder and run every rule.

    Raises:
        NotADirectoryError: there is no such folder.
    """
    with collector.held_back():
        reading = load(folder)
        return Checked(base=reading.base, findings=tuple(_from_here(lint(reading, today), folder)))


def _from_here(findings: Iterable[Finding], folder: Path) -> list[Finding]:
    """With paths that an editor opens from the current directory."""
    prefix = Path(os.path.relpath(folder)).as_posix()
    start = "" if prefix == "." else f"{prefix}/"
    return [dataclasses.replace(finding, path=f"{start}{finding.path}") for finding in findings]
