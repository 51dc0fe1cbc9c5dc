"""What the open formats say of each entry and each case, as text; what has not changed is remembered."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import astuple, dataclass
from typing import Any, TypeVar

from kbtools.export import cases_csv, cases_json, causes_csv, faults_csv, faults_json
from kbtools.export.csv_text import csv_rows
from kbtools.export.json_text import json_line
from kbtools.index.answers import Index
from kbtools.index.cases import counted_naming
from kbtools.index.entries import cases
from kbtools.index.heirs import old_ids
from kbtools.index.sources import SourceDigests
from kbtools.model.batches import in_batches
from kbtools.model.fault import Fault
from kbtools.model.memory import Memory

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class FaultTexts:
    """What is said of a published entry."""

    listed: str
    """Its line of `faults.json`."""
    row: str
    """Its row of `faults.csv`."""
    causes: str
    """Its rows of `causes.csv`."""


@dataclass(frozen=True, slots=True)
class CaseTexts:
    """What is said of a case."""

    listed: str
    """Its line of `cases.json`."""
    row: str
    """Its row of `cases.csv`."""


def fault_texts(index: Index, memory: Memory | None) -> Iterator[tuple[str, FaultTexts]]:
    """Id of each published entry and its texts, in no order; a memory is asked first, without one all are made."""
    digests, old, counting = SourceDigests(index), old_ids(index.base), counted_naming(index.base)

    def asked(fault: Fault) -> bytes | None:
        more = (old.get(fault.id, ()), len(counting.get(fault.id, ())))
        return digests.of(fault, index.cases_by_fault.get(fault.id, ()), more)

    def make(fault_id: str) -> FaultTexts:
        fault = index.published[fault_id]
        return FaultTexts(
            listed=json_line(faults_json.of_published(fault, index, old.get(fault_id, ()))),
            row=csv_rows([faults_csv.row(fault, len(counting.get(fault_id, ())))]),
            causes=csv_rows(causes_csv.rows(fault, index)),
        )

    every = {fault.id: asked(fault) for fault in index.published.values()}
    return in_batches(memory, "fault texts", every, make, (astuple, _reader(FaultTexts, 3)), together=8)


def case_texts(index: Index, memory: Memory | None) -> list[CaseTexts]:
    """The texts of each case, in the order of the files; a memory as above."""
    digests, every = SourceDigests(index), {case.id: case for case in cases(index.base)}
    counting = {case.id for found in counted_naming(index.base).values() for case in found}

    def make(case_id: str) -> CaseTexts:
        case = every[case_id]
        return CaseTexts(
            listed=json_line(cases_json.record(case, index, counts=case_id in counting)),
            row=csv_rows([cases_csv.row(case, index)]),
        )

    def asked(case_id: str) -> bytes | None:
        case = every[case_id]
        fault = index.entry(case.fault) if case.fault is not None else None
        named = None if fault is None else (fault.id, fault.id in index.published)
        return digests.of(None, [case], (named, case_id in counting))

    shape = (astuple, _reader(CaseTexts, 2))
    found = dict(in_batches(memory, "case texts", {each: asked(each) for each in every}, make, shape, together=32))
    return [found[each] for each in every]


def _reader(kind: Callable[..., T], many: int) -> Callable[[str, Any], T]:
    """Reads texts that were kept; they are so many."""

    def read(_name: str, row: Any) -> T:
        if len(row) != many or not all(isinstance(each, str) for each in row):
            raise ValueError
        return kind(*row)

    return read
