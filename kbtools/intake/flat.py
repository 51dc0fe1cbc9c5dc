"""A report of fields side by side, as a report in the form of a case."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from kbtools.diagnostics import Finding, Mark
from kbtools.drafting.entries import NewFile, text_of
from kbtools.intake.fields import Field, put
from kbtools.intake.placing import pointer_at
from kbtools.intake.report import SOURCE, Report
from kbtools.intake.values import Ways, value_of
from kbtools.model.money import DistanceUnit
from kbtools.reading.layout import Placed
from kbtools.reading.one_file import read_file
from kbtools.reading.source import SourceFile


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What somebody has written for a field."""

    field: Field
    """Which."""
    text: str
    """As it was written. Hostile."""
    where: str
    """Words for its place: the column's header, the question. Hostile."""
    unit: DistanceUnit | None = None
    """Of distances that are numbers alone, where the place says it."""


def report_of_answers(name: str, answers: list[Answer], ways: Ways, line: int, row: str = "") -> Report:
    """A report.

    Args:
        name: what its findings are told of.
        answers: each field once; in any order.
        ways: how they are written.
        line: on which it begins.
        row: words for the row that it is, if it is one.
    """
    data: dict[str, Any] = {}
    findings: list[Finding] = []
    places = {each.field.pointer: each.where for each in answers}
    fault = None
    # Causes and checks are named within their entry, so that comes first.
    for each in sorted(answers, key=lambda answer: answer.field.kind != "fault"):
        try:
            own = ways if each.unit is None else replace(ways, unit=each.unit)
            value = value_of(each.field, each.text, own, fault)
        except ValueError as error:
            message, _, hint = str(error).partition("\n")
            findings.append(_finding(name, line, f"{each.where}: {message}", hint))
            continue
        if value is not None and value != []:
            put(data, each.field, value)
        if each.field.kind == "fault":
            fault = value
    data["source"] = {**SOURCE, **data.get("source", {})}
    where = _where(places, row)
    if not findings:
        findings += (
            _finding(name, line, f"{where(pointer)}: {found.message}".removeprefix(": "), found.hint)
            for pointer, found in _form(data, ways)
        )
    return Report(
        name=name,
        data=data if not findings else None,
        findings=tuple(findings),
        document=None,
        line=max(line - 1, 0),
        where=where,
    )


def _form(data: Mapping[str, Any], ways: Ways) -> Iterator[tuple[str, Finding]]:
    """What is wrong with the form of a case, and of what."""
    text = text_of(NewFile(path="", kind="case", data=data, notes=()), ways.shape.hints, None)
    content = read_file(Placed(kind="case", id=""), SourceFile(path="", data=text.encode()), ways.shapes)
    for found in content.findings:
        yield pointer_at(content.document, found.mark, data), found


def _where(places: Mapping[str, str], row: str) -> Callable[[str], str]:
    def words(pointer: str) -> str:
        parts = pointer.split("/")
        for end in range(len(parts), 1, -1):
            if "/".join(parts[:end]) in places:
                return places["/".join(parts[:end])]
        return row

    return words


def _finding(name: str, line: int, message: str, hint: str) -> Finding:
    mark = Mark(line=max(line, 1), column=1)
    return Finding(rule="KB204", severity="error", path=name, mark=mark, message=message, hint=hint)
