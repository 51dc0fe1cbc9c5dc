"""Rules that say of themselves that they look at one file at a time do so."""

from __future__ import annotations

import datetime as dt
import json
import os
import signal
from collections.abc import Collection, Mapping
from typing import Any

import pytest

from kbtools.diagnostics import Finding
from kbtools.edges import beside
from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import shapes, tables
from kbtools.index.narrowed import narrowed, stands_alone
from kbtools.linting import by_file
from kbtools.linting.by_file import _Files
from kbtools.linting.one_rule import Ran, carried_out, in_documents
from kbtools.linting.run import examine
from kbtools.reading.reader import Reading, read
from kbtools.reading.source import SourceFile
from kbtools.rules import samples
from kbtools.rules.rule import Rule

TODAY = dt.date(2026, 6, 1)
SHAPES = shapes()
ALONE = [rule for rule in rulebook().rules if rule.alone is not None]


def bad(rule: Rule) -> Reading:
    """The sample base with the rule's own bad piece in it, and in a second entry as well."""
    assert rule.sample is not None
    sources = [SourceFile(path=path, data=data) for path, data in samples.with_bad(rule.sample).items()]
    more = [
        SourceFile(path=each.path.replace(".yml", "-2.yml"), data=each.data)
        for each in sources
        if each.path.startswith(("faults/", "cases/"))
    ]
    return read([*sources, *more], SHAPES, tables=tables())


def at_once(rule: Rule, reading: Reading) -> list[Finding]:
    return found_in(rule, reading, reading.base.digests)


def one_by_one(rule: Rule, reading: Reading) -> list[Finding]:
    """What is found in the lists without any other file, and in each other file beside the lists."""
    found = found_in(rule, reading, ())
    for path in filter(stands_alone, reading.base.digests):
        found += [each for each in found_in(rule, reading, {path}) if each.path == path]
    return sorted(found, key=lambda each: each.order)


def found_in(rule: Rule, reading: Reading, paths: Collection[str]) -> list[Finding]:
    ran = carried_out(rule, narrowed(reading.base, paths), TODAY, in_documents(reading.documents))
    return sorted((each.finding for each in ran.found), key=lambda each: each.order)


@pytest.mark.parametrize("rule", [each for each in ALONE if each.sample is not None], ids=lambda rule: rule.code)
def test_it_finds_file_by_file_what_it_finds_in_all(rule: Rule) -> None:
    reading = bad(rule)
    found = at_once(rule, reading)
    assert found, "its own sample shows nothing, so nothing is tried"
    assert one_by_one(rule, reading) == found


@pytest.mark.parametrize("code", ["KB308", "KB310", "KB610"])
def test_a_rule_that_compares_would_be_told(code: str) -> None:
    rule = next(each for each in rulebook().rules if each.code == code)
    assert rule.alone is None
    reading = bad(rule)
    assert one_by_one(rule, reading) != at_once(rule, reading)


class Remembering:
    """A memory of JSON in a dictionary."""

    def __init__(self) -> None:
        self.kept: dict[tuple[str, bytes], str] = {}

    def worked_out(self, work: str, asked: bytes) -> Any:
        return json.loads(self.kept.get((work, asked), "null"))

    def keep_worked_out(self, work: str, asked: bytes, found: Any) -> None:
        self.kept[work, asked] = json.dumps(found)


def test_a_second_process_finds_what_one_finds(monkeypatch: pytest.MonkeyPatch) -> None:
    """Its findings come back through a pipe, and what is kept of them serves the next run."""
    here = list[int]()
    look = _Files.look

    def noted(self: _Files) -> Mapping[str, Ran]:
        here.append(1)
        return look(self)

    rules = [each for each in ALONE if each.sample is not None][::7]
    readings = {rule.code: bad(rule) for rule in rules}
    alone = {code: examine(reading, rulebook(), TODAY) for code, reading in readings.items()}
    monkeypatch.setattr(by_file, "MUCH", 1)
    monkeypatch.setattr(beside, "two_at_once", lambda: hasattr(os, "fork"))
    monkeypatch.setattr(_Files, "look", noted)
    for code, reading in readings.items():
        memory = Remembering()
        assert examine(reading, rulebook(), TODAY, memory, beside.second_or_none) == alone[code], code
        assert not here, "the first process has looked at the files itself"
        assert examine(reading, rulebook(), TODAY, memory, beside.second_or_none) == alone[code], code
        here.clear()


def test_where_the_second_process_dies_the_first_looks_at_the_files(monkeypatch: pytest.MonkeyPatch) -> None:
    reading, first, look = bad(ALONE[0]), os.getpid(), _Files.look

    def killed(self: _Files) -> Mapping[str, Ran]:
        if os.getpid() != first:
            os.kill(os.getpid(), signal.SIGKILL)
        return look(self)

    alone = examine(reading, rulebook(), TODAY)
    monkeypatch.setattr(by_file, "MUCH", 1)
    monkeypatch.setattr(beside, "two_at_once", lambda: hasattr(os, "fork"))
    monkeypatch.setattr(_Files, "look", killed)
    assert examine(reading, rulebook(), TODAY, None, beside.second_or_none) == alone
