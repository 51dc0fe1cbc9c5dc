"""KB417: result that a check cannot have."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.checks import answer_intact
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.check import Check
from kbtools.model.fault import Fault
from kbtools.rules.beside import beside
from kbtools.rules.rule import Breach, Rule, Sample

_ANSWERS = {"bad", "good", "unclear"}
_READINGS = {"low", "high", "good", "unclear"}


def of_case(case: Case, fault: Fault, _base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Results of checks in a case that these checks cannot have."""
    allowed = {each.id: _results(fault, each) for each in fault.checks} if case.tried else {}
    for tried in case.tried:
        can = allowed.get(tried.check) if tried.check is not None else None
        if can is not None and tried.result is not None and tried.result not in can:
            message = f'The check "{tried.check}" cannot come out {tried.result}.'
            hint = f"Its results are: {', '.join(sorted(can))}."
            yield Breach(path=case.path, pointer=f"{tried.at}/result", message=message, hint=hint)


def _results(fault: Fault, check: Check) -> set[str] | None:
    """What can come out of a check; None where its answer is not written, or could not be read."""
    if not answer_intact(fault, check):
        return None
    if check.reading is not None:
        return _READINGS
    return _ANSWERS if check.expect is not None or check.points_to else None


_CHECK = beside("KB417", of_case)

RULE = Rule(
    code="KB417",
    title="Result that the check cannot have",
    severity="error",
    what=(
        "A result in a case that its check cannot have: low or high where nothing is measured, bad where a "
        "reading is low or high."
    ),
    why="It cannot be told which causes the result speaks for.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="result: unclear",
        bad="result: low",
        good="result: bad",
    ),
    check=_CHECK,
    check_with=_CHECK,
)
