"""KB421: code pattern that cannot be used."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.model.codes import CodeFormat, pattern_problem, read_code
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Patterns that are not taken, and examples that do not fit."""
    # With a lost row the others would be counted wrongly; it has a finding of its own.
    whole = base.club is not None and not any(each.startswith("/code_formats") for each in base.club.damaged)
    for index, each in enumerate(base.club.code_formats if base.club is not None and whole else ()):
        row = f"/code_formats/{index}"
        problem = None if each.pattern is None else pattern_problem(each.pattern)
        if problem is not None:
            message = f"The pattern cannot be used: {problem}."
            hint = "Use letters, digits, \\d, classes such as [A-Z0-9], groups, | and repeats such as {2}."
            yield Breach(path="club.yml", pointer=f"{row}/pattern", message=message, hint=hint)
        elif each.example is not None and not _fits(each, each.example):
            message = f'The example "{short(each.example)}" is no code of its own format.'
            hint = "Correct the example or the pattern; a pattern fits the whole code."
            yield Breach(path="club.yml", pointer=f"{row}/example", message=message, hint=hint)


def _fits(each: CodeFormat, example: str) -> bool:
    """Whether the example is written as the format has it, in any case."""
    code = read_code(example, [each]).code
    return code is not None and code.text.casefold() == example.casefold()


RULE = Rule(
    code="KB421",
    title="Code pattern that cannot be used",
    severity="error",
    what="A `pattern` in `code_formats` that is not taken, or an `example` that does not fit its own format.",
    why="No code of that format would be recognised, on the site or in an entry.",
    sample=Sample(
        path="club.yml",
        instead_of="example: 4-2",
        bad="example: 42",
        good="example: 4-2",
    ),
    check=check,
)
