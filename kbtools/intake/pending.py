"""Reports that have their place and are not written yet: the file that each would be, and what is wrong so far."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from kbtools.diagnostics import START, Finding, has_errors
from kbtools.drafting.entries import NewFile, text_of
from kbtools.intake.entry import entry_today
from kbtools.intake.personal import is_personal
from kbtools.intake.placing import pointer_at
from kbtools.intake.register import Place, Register, WrongMachineError
from kbtools.intake.report import Report
from kbtools.intake.rewritten import rewritten
from kbtools.model.base import KnowledgeBase
from kbtools.reading.places import Document
from kbtools.reading.shape import Hints
from kbtools.reading.source import SourceFile

_FORM: Final = ("KB1", "KB2")
"""Families of findings that a report's own reading has told already."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pending:
    """A report on its way into the base."""

    report: Report
    """The report."""
    place: Place | None = None
    """Where it goes; None: nowhere, since something is wrong with it."""
    text: bytes = b""
    """The file that it would be; empty: nothing is to be written or checked."""
    findings: tuple[Finding, ...] = ()
    """What is wrong with it beside its form."""
    said: tuple[str, ...] = ()
    """What to tell beside that, sentences. Hostile."""

    def path(self, number: int) -> str | None:
        """The path under which it is checked; of one whose form is wrong a made-up one, by its number in the run."""
        if self.place is not None:
            return self.place.path
        return f"cases/2000/unread-{number:06}.yml" if self.text else None

    def has_told(self, finding: Finding) -> bool:
        """Whether the reading of the report has told it."""
        return self.report.broken is not None and finding.rule.startswith(_FORM)

    def in_report(self, finding: Finding) -> Finding:
        """A finding in the file that would be written, where the report says it."""
        if self.report.broken is not None:
            return self.report.placed(finding)
        written = Document(path=finding.path, text=self.text.decode())
        pointer = pointer_at(written, finding.mark, self.place.data if self.place is not None else {})
        return _at(self.report, pointer, finding)


def find_place(
    report: Report,
    register: Register,
    base: KnowledgeBase,
    source_of: Callable[[str], SourceFile | None],
    hints: Hints,
) -> Pending:
    """A report at the place where it goes.

    Args:
        report: the report.
        register: the cases that there are, those of the reports before among them.
        base: the base that it names things of.
        source_of: from the path of a file to what it says; None: it is not there.
        hints: of the schema of cases.
    """
    if report.data is None:
        return Pending(report=report, text=(report.broken or "").encode())
    today = entry_today(report.data, base)
    data = {**report.data, "fault": today.fault} if today.fault is not None else report.data
    said: tuple[str, ...] = (today.said,) if today.said is not None else ()
    if today.refused:
        return Pending(report=report, findings=(error_in(report, "/fault", "KB310", (today.said or "", today.hint)),))
    try:
        place = register.place(data)
    except WrongMachineError as error:
        hint = "Take `follows` out, or correct model, year or bike."
        return Pending(report=report, findings=(error_in(report, "/follows", "KB311", (str(error), hint)),))
    if place.otherwise:
        said += (f"It says something else about: {', '.join(place.otherwise)}. {place.path} counts already.",)
    return Pending(report=report, place=place, text=_text(place, source_of(place.path), hints).encode(), said=said)


def _text(place: Place, before: SourceFile | None, hints: Hints) -> str:
    """The file that is to be at a place; empty: the one that is there stays."""
    if place.how == "there":
        return ""
    if place.how == "update" and before is not None:
        return rewritten((before.data or b"").decode("utf-8-sig"), place.data, hints)
    return text_of(NewFile(path=place.path, kind="case", data=place.data, notes=()), hints, None)


def refuses(found: Sequence[Finding]) -> bool:
    """Whether a report with these findings is not taken in."""
    return has_errors(list(found)) or any(is_personal(each) for each in found)


def error_in(report: Report, pointer: str, rule: str, words: tuple[str, str]) -> Finding:
    """An error at a place of a report.

    Args:
        report: the report.
        pointer: JSON pointer of the place.
        rule: id of the rule.
        words: what is wrong, and what to do.
    """
    made = Finding(rule=rule, severity="error", path="", mark=START, message=words[0], hint=words[1])
    return _at(report, pointer, made)


def _at(report: Report, pointer: str, finding: Finding) -> Finding:
    """A finding, at a place of a report."""
    mark = report.document.value(pointer) if report.document is not None else START
    place = report.where(pointer) if report.where is not None else ""
    words = f"{place}: " if place else ""
    return report.placed(replace(finding, mark=mark, message=f"{words}{finding.message}"))
