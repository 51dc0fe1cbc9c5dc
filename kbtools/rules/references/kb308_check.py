"""KB308: unknown check."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.fault import Fault
from kbtools.rules.beside import beside
from kbtools.rules.references.named import missing
from kbtools.rules.rule import Breach, Rule, Sample


def of_case(case: Case, fault: Fault, _base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Checks that a case has tried and its fault does not list."""
    if not case.tried or not fault.ids_known("checks"):
        return
    known = {each.id: (each.do or each.id,) for each in fault.checks}
    for tried in case.tried:
        if tried.check is not None and tried.check not in known:
            message, hint = missing("check", tried.check, known, f"in {fault.id}")
            yield Breach(path=case.path, pointer=f"{tried.at}/check", message=message, hint=hint)


_CHECK = beside("KB308", of_case)

RULE = Rule(
    code="KB308",
    title="Unknown check",
    severity="error",
    what="A case that tried a check which its fault does not list.",
    why="What came out of it would count for nothing.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="check: look-at-plug",
        bad="check: look-at-plugs",
        good="check: look-at-plug",
    ),
    check=_CHECK,
    check_with=_CHECK,
)
