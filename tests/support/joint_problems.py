"""Faults that are planned together, from plain data, as the vectors and the browser have them."""

from __future__ import annotations

from typing import Any

from kbtools.checkplan.beside import Beside, Word
from kbtools.checkplan.joint import Joint, Part, joint_of
from tests.support.plan_problems import owner_from, problem_from

Record = dict[str, Any]


def part_from(record: Record) -> Part:
    beside = record["beside"]
    return Part(
        problem=problem_from(record["problem"]),
        beside=Beside(
            word=_word(beside["advice"]),
            causes={cause: _word(word) for cause, word in beside["causes"].items()},
            free=(),
        ),
        same=record["same"],
        shared=record["shared"],
        cases=record["cases"],
    )


def _word(record: Record) -> Word:
    return Word(level=record["level"], why=record["why"], source=record["from"])


def joint_from(asked: Record) -> Joint:
    owner = owner_from(asked["owner"])
    return joint_of([part_from(each) for each in asked["parts"]], owner.bike, asked["without_fault"])
