"""Rules that hold cases against their faults look again at what an edit can have touched, and at nothing else."""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Iterator
from typing import Any

from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.fault import Fault
from kbtools.rules.beside import beside
from kbtools.rules.rule import Breach
from tests.support import factories as make

TODAY = dt.date(2026, 6, 1)


class Store:
    def __init__(self) -> None:
        self.rows: dict[tuple[str, bytes], Any] = {}

    def worked_out(self, work: str, asked: bytes) -> Any:
        return self.rows.get((work, asked))

    def keep_worked_out(self, work: str, asked: bytes, found: Any) -> None:
        self.rows[work, asked] = found


def with_digests(base: KnowledgeBase, **edited: bytes) -> KnowledgeBase:
    entries: list[Fault | Case] = [*base.faults.values(), *base.cases.values()]
    return dataclasses.replace(base, digests={each.path: edited.get(each.id, b"1") for each in entries})


def test_only_faults_with_a_changed_file_are_looked_at_again() -> None:
    faults = [make.fault("lamp"), make.fault("pump")]
    cases = [make.case("one", fault="lamp"), make.case("two", fault="pump"), make.case("bad", fault="lamp")]
    base, looked, store = make.base(*faults, cases=cases), list[str](), Store()

    def of_case(case: Case, fault: Fault, lists: KnowledgeBase, today: dt.date) -> Iterator[Breach]:
        assert not lists.faults
        assert today != TODAY
        looked.append(case.id)
        if case.id == "bad":
            yield Breach(path=case.path, pointer="", message=f"not {fault.id}", hint="")

    def found(base: KnowledgeBase) -> tuple[list[str], list[str]]:
        looked.clear()
        return [each.path for each in beside("KB999", of_case)(base, TODAY, store)], [*looked]

    bad = next(case.path for case in cases if case.id == "bad")
    assert found(with_digests(base)) == ([bad], ["one", "two", "bad"])
    # What was found is found again; where nothing was, nobody looks.
    assert found(with_digests(base)) == ([bad], ["one", "bad"])
    assert found(with_digests(base, pump=b"2")) == ([bad], ["one", "two", "bad"])
    assert found(with_digests(base, pump=b"2", two=b"2")) == ([bad], ["one", "two", "bad"])
    assert found(with_digests(base, pump=b"2", two=b"2")) == ([bad], ["one", "bad"])
