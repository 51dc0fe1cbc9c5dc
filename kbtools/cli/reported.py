"""What came of reports that were handed in, as the terminal is told."""

from __future__ import annotations

import functools
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from kbtools.cli.output import say
from kbtools.diagnostics import Finding
from kbtools.report import text
from kbtools.report.context import ReportContext

if TYPE_CHECKING:
    from kbtools.changes.compare import Compared


def tell(findings: Sequence[Finding], context: ReportContext, lines: Mapping[str, Sequence[str]]) -> None:
    """Show findings on the error stream, with the lines of what was handed in."""
    if findings:
        context = replace(context, lines=functools.partial(_of, lines))
        say(text.render(findings, context), err=True, colour=context.colour, fit=True)


def tell_changes(changes: Compared | None) -> None:
    """Say what cases change in the published advice; None: nothing was written."""
    if changes is not None:
        # It loads scipy, and who is refused does without it.
        from kbtools.report import changes as words  # noqa: PLC0415

        say(words.render(changes, changes.currency), fit=True)


def _of(lines: Mapping[str, Sequence[str]], name: str) -> Sequence[str]:
    return lines.get(name, ())
