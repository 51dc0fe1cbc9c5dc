"""KB307: unknown cause."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.index.references import cause_references, cause_references_of_case
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.fault import Fault
from kbtools.model.memory import Memory
from kbtools.rules.beside import beside
from kbtools.rules.references.named import missing
from kbtools.rules.rule import Breach, Rule, Sample


def of_case(case: Case, fault: Fault, _base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Causes that a case names and its fault does not list."""
    return _unknown(fault, cause_references_of_case(case), case.path)


_OF_CASES = beside("KB307", of_case)


def check(base: KnowledgeBase, today: dt.date, memory: Memory | None = None) -> Iterator[Breach]:
    """Causes that a fault's own rows, or a case of that fault, name and the fault does not list."""
    for fault in faults(base):
        yield from _unknown(fault, cause_references(fault), fault.path)
    yield from _OF_CASES(base, today, memory)


def _unknown(fault: Fault, references: Iterator[tuple[str, str]], path: str) -> Iterator[Breach]:
    if not fault.ids_known("causes"):
        return
    ids = {cause.id for cause in fault.causes}
    for identity, pointer in references:
        if identity not in ids:
            known = {cause.id: (cause.summary or cause.id,) for cause in fault.causes}
            message, hint = missing("cause", identity, known, f"in {fault.id}")
            yield Breach(path=path, pointer=pointer, message=message, hint=hint)


RULE = Rule(
    code="KB307",
    title="Unknown cause",
    severity="error",
    what="A check, a source or a case that names a cause which its fault does not list.",
    why="The result of the check would point to nothing, and the case would count for nothing.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="points_to: [corroded-plug]",
        bad="points_to: [coroded-plug]",
        good="points_to: [corroded-plug]",
    ),
    check=check,
    check_with=check,
)
