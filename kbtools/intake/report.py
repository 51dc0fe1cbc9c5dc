"""One report, as far as it can be read: what it says in the form of a case, and where it says it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from kbtools.diagnostics import START, Finding, Mark
from kbtools.intake.marked import Marked
from kbtools.reading.layout import Placed
from kbtools.reading.limits import MOST_ENTRY_BYTES
from kbtools.reading.one_file import read_file
from kbtools.reading.places import Document
from kbtools.reading.shape import Shape
from kbtools.reading.source import SourceFile
from kbtools.reading.tree import Mapping as Tree
from kbtools.reading.tree import parse

SOURCE: Final[Mapping[str, str]] = {"kind": "first-hand", "title": "Member report"}
"""Of a report that does not say where it comes from: no more of its sender than this is kept."""
_PATH: Final = "cases/0000/report.yml"
"""Of the report while it is read; nothing of it is shown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """A report that somebody handed in."""

    name: str
    """What its findings are told of: the file, or what stands for it. Hostile."""
    data: Mapping[str, Any] | None
    """What it says, in the form of a case's file; None where it cannot be read."""
    findings: tuple[Finding, ...]
    """What is wrong with its form; their path is `name`."""
    document: Document | None
    """Its own text, in which a rule's finding has its place; None: it has none, such as a row of a table."""
    broken: str | None = None
    """Its text where its form is wrong and some of it can be read: what else is wrong is told in the same run."""
    line: int = 0
    """So many lines of the text that was handed in stand above it."""
    column: int = 0
    """So many characters of a line of it stand before it."""
    where: Callable[[str], str] | None = None
    """Of a report without a text: from a JSON pointer to the words for the place, such as a column."""

    def placed(self, finding: Finding) -> Finding:
        """A finding in the report's own text, as one in what was handed in."""
        mark = finding.mark
        return replace(finding, path=self.name, mark=Mark(line=mark.line + self.line, column=mark.column + self.column))


def report_of_text(name: str, part: Marked, shapes: Mapping[str, Shape]) -> Report:
    """A report that is a case file.

    Args:
        name: what its findings are told of.
        part: the YAML, and where it stands in what was handed in.
        shapes: the schemas, by kind of file.
    """
    whole = _with_source(part.text)
    content = read_file(Placed(kind="case", id="report"), SourceFile(path=_PATH, data=whole.encode()), shapes)
    usable = isinstance(content.data, dict)
    report = Report(
        name=name,
        data=content.data if usable and not content.findings else None,
        findings=(),
        document=replace(content.document, text=part.text),
        broken=whole if usable and content.findings else None,
        line=part.line,
        column=part.column,
    )
    return replace(report, findings=tuple(report.placed(each) for each in content.findings))


def refused(name: str, message: str, hint: str, line: int = 0) -> Report:
    """A report that cannot be read at all."""
    mark = Mark(line=line, column=1) if line else START
    finding = Finding(rule="KB101", severity="error", path=name, mark=mark, message=message, hint=hint)
    return Report(name=name, data=None, findings=(finding,), document=None)


def _with_source(text: str) -> str:
    """The text with a source at its end, where it has none: who writes a report need not think of it."""
    if len(text) > MOST_ENTRY_BYTES:
        return text
    root, wrong = parse(_PATH, text)
    if not isinstance(root, Tree) or wrong or "source" in root.entries or root.column != 1 or text[:1] == "{":
        return text
    end = "" if text.endswith("\n") else "\n"
    return f"{text}{end}source: {{kind: {SOURCE['kind']}, title: {SOURCE['title']}}}\n"
