"""What stands beside the cost of a plan for several faults, and the whole of it as JSON has it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from kbtools.checkplan.beside import (
    LIKELY,
    ROUNDED,
    FreeWork,
    Word,
    bad_before_riding,
    before_riding,
    free_record,
    may_be_free,
    strictest_word,
    word_record,
)
from kbtools.checkplan.joint import Joint
from kbtools.checkplan.owner import Owner
from kbtools.checkplan.record import Record, plan_record
from kbtools.checkplan.steps import Plan
from kbtools.index.answers import ModelYear
from kbtools.model.case import UNLISTED
from kbtools.model.fault import NOTICES


def joint_ride_advice(joint: Joint, chances: Mapping[str, float], codes: Iterable[Word], bad: Iterable[str]) -> Word:
    """The strictest that applies now; of equal ones a fault's, then a cause's, then a code's, in file order.

    A fault's applies while one of its causes is possible, or one that is not listed: that may be any fault's. Where
    the results contradict each other, all faults' apply.

    Args:
        joint: the faults.
        chances: id of a joint cause → its share after the results; empty where these contradict each other.
        codes: advice of the codes that were given.
        bad: ids of the checks before riding that came out bad.
    """
    possible = {fault for cause in chances for fault, _ in joint.members.get(cause, ())}
    every = not chances or UNLISTED in chances
    faults = [part.beside.word for part in joint.parts if every or part.problem.fault in possible]
    likely = [word for cause, word in _causes(joint) if chances.get(cause, 0.0) >= LIKELY - ROUNDED]
    again = [Word(level="do-not-ride", why=None, source=f"check:{each}") for each in bad]
    return strictest_word([*faults, *likely, *codes, *again])


def _causes(joint: Joint) -> Iterator[tuple[str, Word]]:
    """The advice of the causes that have one; of causes that are one the strictest."""
    words = {part.problem.fault: part.beside.causes for part in joint.parts}
    for name, members in joint.members.items():
        own = [words[fault][cause] for fault, cause in members if cause in words[fault]]
        if own:
            yield name, replace(strictest_word(own), source=f"cause:{name}")


def joint_may_be_free(joint: Joint, bike: ModelYear | None) -> tuple[FreeWork, ...]:
    """The recalls and bulletins that cover a bike, recalls first, in file order; `covers` has joint causes."""
    name_of = {member: name for name, members in joint.members.items() for member in members}
    found = []
    for part in joint.parts:
        for work in may_be_free(part.beside, bike):
            members = [(part.problem.fault, cause) for cause in work.covers]
            covers = dict.fromkeys(name_of[each] for each in members if each in name_of)
            found.append(replace(work, covers=tuple(covers)))
    return tuple(sorted(found, key=lambda work: NOTICES.index(work.kind)))


def joint_record(joint: Joint, plan: Plan, owner: Owner, codes: Sequence[Word] = ()) -> Record:
    """As `whole_record`, but `fault` is null, and `faults` says how often it is which; causes have no interval.

    Args:
        joint: the faults.
        plan: of the joint problem for the owner.
        owner: for whom.
        codes: advice of the codes that were given.
    """
    bad = bad_before_riding(joint.problem, owner)
    return {
        **plan_record(plan),
        "fault": None,
        "faults": [
            {"id": each.id, "share": each.mean, "low": each.low, "high": each.high, "cases": each.cases}
            for each in joint.faults
        ],
        "causes": [
            {"id": each.id, "share": each.mean, "low": None, "high": None, "cases": each.cases} for each in joint.causes
        ],
        "before_riding": list(before_riding(joint.problem, owner)),
        "ride_advice": word_record(joint_ride_advice(joint, plan.chances, codes, bad)),
        "may_be_free": [free_record(work) for work in joint_may_be_free(joint, owner.bike)],
    }
