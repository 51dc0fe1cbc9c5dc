"""The body of an issue that a form has made: `### Question`, an empty line, the answer."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from kbtools.intake.fields import Field, fields_of
from kbtools.intake.flat import Answer, report_of_answers
from kbtools.intake.report import Report, refused
from kbtools.intake.values import Ways
from kbtools.reading.shape import Schema, Shape

_HEADING: Final = re.compile(r"### (?P<label>.+?)\s*")
_NO_ANSWER: Final = "_No response_"
_LEAST: Final = 3
"""So many of the form's questions make a text the body of one."""
PROMISE: Final = "Nothing personal"
"""Head of the box that is ticked at the end of the form; it is no field."""
NOT_ASKED: Final = frozenset(
    {
        "source",
        "source_kind",
        "source_year",
        "source_url",
        "source_archived",
        "source_seen_on",
    }
)
"""Fields that the form does not ask for: the source is always the member."""


def asked(schema: Schema) -> Mapping[str, Field]:
    """The fields that the form asks for, by the question's words, in order."""
    return {field.title: field for field in fields_of(schema).values() if field.name not in NOT_ASKED}


def is_form(text: str, shape: Shape) -> bool:
    """Whether a text is the body of such an issue."""
    return len(_found(text, asked(shape.schema))) >= _LEAST


def report_of_form(name: str, text: str, ways: Ways) -> Report:
    """The report in the body of an issue.

    Args:
        name: what its findings are told of.
        text: the body.
        ways: how its answers are written.
    """
    answers: list[Answer] = []
    met: set[str] = set()
    lines = text.split("\n")
    questions = asked(ways.shape.schema)
    found = _found(text, questions)
    for (at, label), (end, _) in zip(found, [*found[1:], (len(lines), "")], strict=True):
        if label == PROMISE:
            continue
        if label in met:
            hint = "Heads of questions cannot stand in an answer; write it in other words."
            return refused(name, f'The question "{label}" stands there twice.', hint, at + 1)
        met.add(label)
        said = "\n".join(lines[at + 1 : end]).strip()
        if said and said != _NO_ANSWER:
            answers.append(Answer(field=questions[label], text=_ticked(said), where=label))
    return report_of_answers(name, answers, ways, 1)


def _found(text: str, questions: Mapping[str, Field]) -> list[tuple[int, str]]:
    """Number of the line from 0, and the question, of each head that is one of the form's."""
    heads = ((number, _HEADING.fullmatch(line)) for number, line in enumerate(text.split("\n")))
    known = {*questions, PROMISE}
    return [(number, head["label"]) for number, head in heads if head is not None and head["label"] in known]


def _ticked(text: str) -> str:
    """Of boxes to tick, whether the one is ticked."""
    box = re.fullmatch(r"- \[([ xX])\] .*", text)
    return text if box is None else ("yes" if box[1] in "xX" else "no")
