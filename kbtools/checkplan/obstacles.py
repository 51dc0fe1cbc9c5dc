"""What stands between an owner and a cheaper end: checks and fixes that would help and that the owner cannot do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from kbtools.checkplan.owner import Owner
from kbtools.checkplan.problem import Problem
from kbtools.checkplan.table import Abilities, start_of, table_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacle:
    """A check or a fix that the owner cannot do, and why."""

    kind: Literal["check", "fix"]
    """What it is."""
    id: str
    """Of the check, or of the cause whose fix it is."""
    skill: bool
    """It takes more skill than the owner's."""
    tools: tuple[str, ...]
    """Ids of the tools that are not at hand."""
    access: tuple[str, ...]
    """Ids of the access jobs that take more skill than the owner's."""
    absent: bool
    """The check says nothing while the fault is not there."""


def obstacles(problem: Problem, owner: Owner) -> tuple[Obstacle, ...]:
    """What is out of reach: checks that could tell possible causes apart, then fixes of possible causes."""
    return tuple(_obstacles(problem, owner))


def _obstacles(problem: Problem, owner: Owner) -> Iterator[Obstacle]:
    table = table_of(problem, owner)
    possible, _, _ = start_of(table, owner.results)
    able = Abilities(problem, owner)
    for check, row in zip(problem.checks, table.checks, strict=True):
        tells = row.union & possible and possible not in [each & possible for each in row.sets]
        if tells and not row.possible and check.id not in owner.results:
            skill, tools, access = able.lacking(check)
            silent = owner.absent and check.only_while_present
            yield Obstacle(kind="check", id=check.id, skill=skill, tools=tools, access=access, absent=silent)
    for fix in problem.fixes:
        if (
            fix.id in table.causes
            and possible >> table.causes.index(fix.id) & 1
            and not able.allow(fix)
            and fix.id not in owner.covered
        ):
            skill, tools, access = able.lacking(fix)
            yield Obstacle(kind="fix", id=fix.id, skill=skill, tools=tools, access=access, absent=False)
