"""What somebody hands in, as reports: a mail, a file, or the body of an issue that a form has made."""

from __future__ import annotations

import re
from collections.abc import Sequence

from kbtools.intake.issue_form import is_form, report_of_form
from kbtools.intake.letters import Letter, NoTextError, letters
from kbtools.intake.marked import BEGIN, END, marked
from kbtools.intake.report import Report, refused, report_of_text
from kbtools.intake.values import Ways

_HINT = f"A report stands between a line `{BEGIN}` and a line `{END}`, as the site's page for reports writes it."

_OTHER = re.compile(r"(?im)^(?:[ \t]*>)*[ \t]*--- (?P<kind>correction|new fault)[ \t]*$")
_OTHERS = {
    "correction": "It says that something in an entry is wrong, and is no report of a case.",
    "new fault": "It tells of a fault that has no entry yet, and is no report of a case.",
}
"""What the site's page for reports sends beside reports."""


def reports_of(name: str, data: bytes, ways: Ways) -> Sequence[Report]:
    """The reports in what was handed in; one that says what is wrong where there is none.

    Args:
        name: of the file, for findings.
        data: the whole of it.
        ways: how values of a form are written.
    """
    try:
        found = letters(data)
    except NoTextError as error:
        return [refused(name, f"{error}.", _HINT)]
    for each in found:
        reports = _in(name, each, ways)
        if reports:
            # What a mail says once more as a page is the same.
            return reports
    for each in found:
        other = _OTHER.search(each.text)
        if other is not None:
            line = each.text[: other.start()].count("\n") + 1
            return [refused(name, _OTHERS[other["kind"].lower()], "Read it, and change or write the entry.", line)]
    return [refused(name, "There is no report in it.", _HINT)]


def _in(name: str, letter: Letter, ways: Ways) -> Sequence[Report]:
    between = marked(letter.text, list(ways.shape.hints.properties))
    if between:
        return [
            report_of_text(name, each, ways.shapes)
            if each.problem is None
            else refused(name, each.problem, _HINT, each.line)
            for each in between
        ]
    return [report_of_form(name, letter.text, ways)] if is_form(letter.text, ways.shape) else []
