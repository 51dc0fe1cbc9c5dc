"""The parts of a joint plan, out of a knowledge base."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from kbtools.checkplan.beside import beside_of
from kbtools.checkplan.joint import Joint, Part, joint_of
from kbtools.checkplan.problem import Problem, problem_of
from kbtools.index.answers import Index, ModelYear
from kbtools.index.checks import good_on
from kbtools.index.together import GivenCode, cases_with, cases_without_fault, one_causes
from kbtools.model.check import Check
from kbtools.model.fault import Fault

MOST_FAULTS = 8
"""So many faults are planned together at most."""


def joint_plan(
    faults: Sequence[Fault], given: Sequence[GivenCode] | None, bike: ModelYear | None, index: Index
) -> Joint:
    """Several faults as one problem.

    Args:
        faults: in the order in which equal steps are taken.
        given: the codes for which they are planned; None: they were named, and all their cases count.
        bike: the machine; None: any that they concern.
        index: of the knowledge base.

    Raises:
        IncompleteError: an entry lacks what a plan takes; the text says what.
    """
    without_fault = 0 if given is None else cases_without_fault(given, index)
    return joint_of([part_of(fault, given, bike, index) for fault in faults], bike, without_fault)


def part_of(fault: Fault, given: Sequence[GivenCode] | None, bike: ModelYear | None, index: Index) -> Part:
    """A fault as a part of a joint plan; what is good at a shared check is what is good on the bike.

    Raises:
        IncompleteError: the entry lacks what a plan takes.
    """
    return Part(
        problem=problem_of(fault, index) if bike is None else _for_bike(problem_of(fault, index), fault, bike),
        beside=beside_of(fault, index),
        same=one_causes(index.base).get(fault.id, {}),
        shared=shared_ids(fault),
        cases=None if given is None else cases_with(fault, given, index),
    )


def _for_bike(problem: Problem, fault: Fault, bike: ModelYear) -> Problem:
    own = {check.id: good_on(check, *bike) for check in fault.checks if check.good_for}
    good = {each: (limits.low, limits.high) for each, limits in own.items() if limits is not None}
    return replace(problem, checks=tuple(replace(each, good=good.get(each.id, each.good)) for each in problem.checks))


def shared_ids(fault: Fault) -> dict[str, str]:
    """Check of a fault → id of the check that several faults share; its own checks are missing."""
    return {check.id: shared for check in fault.checks if (shared := shared_id(check)) is not None}


def shared_id(check: Check) -> str | None:
    """Id of the check that several faults share; None of a check of the fault's own."""
    return check.id if check.use is not None else None
