"""One plan for several faults: they become one `Problem`, which the search solves as that of one fault.

A fault is a `Part` here, and a part is plain data: `core/joint.js` puts the same together in the browser. In the joint
problem a cause is called `fault/cause` and a check `fault/check`; causes that are the same are one, and so are the uses
of a check that faults share.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import reduce

from kbtools.checkplan.beside import Beside
from kbtools.checkplan.problem import CheckWork, FixWork, Problem
from kbtools.checkplan.search import tied
from kbtools.evidence import CauseCases, Evidence, Share, by_falling_share, intervals, means
from kbtools.index.answers import ModelYear
from kbtools.model.case import UNLISTED

Member = tuple[str, str]
"""Id of a fault, and of a cause or a check in it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One of the faults."""

    problem: Problem
    """What its own plan reckons with."""
    beside: Beside
    """What stands beside its cost."""
    same: Mapping[str, str]
    """Id of a cause → name of the group of causes, over all faults, that are one; those that are alone are missing."""
    shared: Mapping[str, str]
    """Id of a check → id of the check that several faults share; its own checks are missing."""
    cases: Mapping[str, int] | None
    """Id of a cause, or `unlisted` → counted cases with one of the codes; None: all counted cases speak for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JointCause:
    """How often a cause is the one, over all the faults."""

    id: str
    """`fault/cause`, or `unlisted`."""
    mean: float
    """Over all of them they add up to 1."""
    cases: int
    """Counted cases of the cause in its fault; of `unlisted` those of all the faults."""
    of: int
    """Counted cases of that fault; of `unlisted` those of all the faults."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Several faults as one problem, on one machine."""

    problem: Problem
    """For `plan_of`. It holds no machine's cases any more: the machine is chosen before."""
    parts: tuple[Part, ...]
    """The faults, in file order."""
    faults: tuple[Share, ...]
    """How often it is which, the largest share first; `unlisted` is a fault that is not described."""
    causes: tuple[JointCause, ...]
    """The largest share first."""
    members: Mapping[str, tuple[Member, ...]]
    """Id of a joint cause → the causes that are one in it, the faults in file order."""
    uses: Mapping[str, tuple[Member, ...]]
    """Id of a joint check → its uses; one, where it is not shared."""


def joint_of(parts: Sequence[Part], bike: ModelYear | None, without_fault: int) -> Joint:
    """Several faults as one problem.

    Args:
        parts: the faults in file order, at least one.
        bike: the machine; None: any that they concern.
        without_fault: solved cases with one of the codes that are about no fault.
    """
    inside = [means(part.problem.evidence, bike) for part in parts]
    alphas, counts = _faults(parts, inside, without_fault)
    whole = sum(alphas)
    weights = [
        {cause: alpha / whole * share for cause, share in own.items()}
        for alpha, own in zip(alphas, inside, strict=False)
    ]
    groups = _groups(parts, weights)
    name_of = {member: name for name, group in groups.items() for member in group}
    joint = {
        name: sum([weights[place][cause] for place, (_, cause) in _places(parts, group)])
        for name, group in groups.items()
    }
    unlisted = alphas[-1] / whole + sum([own[UNLISTED] for own in weights])
    problems = [part.problem for part in parts]
    checks, uses = _checks(parts, name_of)
    ids = [*(problem.fault for problem in problems), UNLISTED]
    return Joint(
        problem=replace(
            problems[0],
            fault="",
            transport=max(problem.transport for problem in problems),
            evidence=_evidence(joint, unlisted),
            access=tuple({job.id: job for problem in problems for job in problem.access}.values()),
            tools=reduce(lambda one, other: {**one, **other}, [problem.tools for problem in problems]),
            fixes=tuple(_fix(parts, name) for name in groups),
            checks=checks,
        ),
        parts=tuple(parts),
        faults=by_falling_share(
            [
                Share(id=each, mean=alpha / whole, low=low, high=high, cases=cases, yours=0)
                for each, alpha, (low, high), cases in zip(ids, alphas, intervals(alphas), counts, strict=True)
            ]
        ),
        causes=tuple(sorted(_causes(parts, joint, unlisted), key=lambda row: -row.mean)),
        members=groups,
        uses=uses,
    )


def _faults(
    parts: Sequence[Part], inside: Sequence[Mapping[str, float]], without_fault: int
) -> tuple[list[float], list[int]]:
    """Dirichlet parameters and counted cases: those of the faults, then of one that is not described."""
    evidence = parts[0].problem.evidence
    strength, unlisted = evidence.prior_strength, evidence.unlisted_share
    counts = [sum(_cases(part, cause) for cause in own) for part, own in zip(parts, inside, strict=True)]
    prior = strength * (1 - unlisted) / len(parts)
    return [*(cases + prior for cases in counts), without_fault + strength * unlisted], [*counts, without_fault]


def _cases(part: Part, cause: str) -> int:
    """The cases with this cause that speak for its fault."""
    return counted_cases(part.problem, cause) if part.cases is None else part.cases.get(cause, 0)


def counted_cases(problem: Problem, cause: str) -> int:
    """All counted cases of a cause, or of `unlisted`."""
    if cause == UNLISTED:
        return sum(problem.evidence.unlisted.values())
    return sum(each.cases for each in problem.evidence.causes if each.id == cause)


def _groups(parts: Sequence[Part], weights: Sequence[Mapping[str, float]]) -> dict[str, tuple[Member, ...]]:
    """Joint cause → its members. It is called by the likeliest of them, and stands where the first of them stands."""
    found: dict[Member, list[tuple[Member, float]]] = {}
    for part, own in zip(parts, weights, strict=True):
        for cause, weight in own.items():
            if cause != UNLISTED:
                member = (part.problem.fault, cause)
                group = part.same.get(cause)
                found.setdefault(member if group is None else ("", group), []).append((member, weight))
    return {_name(_likeliest(group)): tuple(member for member, _ in group) for group in found.values()}


def _likeliest(group: Sequence[tuple[Member, float]]) -> Member:
    most = max(weight for _, weight in group)
    return next(member for member, weight in group if tied(most, weight))


def _name(member: Member) -> str:
    return "/".join(member)


def _places(parts: Sequence[Part], members: Iterable[Member]) -> Iterator[tuple[int, Member]]:
    places = {part.problem.fault: place for place, part in enumerate(parts)}
    for member in members:
        yield places[member[0]], member


def _evidence(joint: Mapping[str, float], unlisted: float) -> Evidence:
    """Evidence whose means are these shares: a judgement, and no case beside it."""
    return Evidence(
        prior_strength=1.0,
        unlisted_share=unlisted,
        causes=tuple(
            CauseCases(id=cause, component=None, weight=weight, applies=None, counted={})
            for cause, weight in joint.items()
        ),
        unlisted={},
    )


def _fix(parts: Sequence[Part], name: str) -> FixWork:
    fault, _, cause = name.partition("/")
    problem = next(part.problem for part in parts if part.problem.fault == fault)
    return replace(next(fix for fix in problem.fixes if fix.id == cause), id=name)


def _checks(
    parts: Sequence[Part], name_of: Mapping[Member, str]
) -> tuple[tuple[CheckWork, ...], dict[str, tuple[Member, ...]]]:
    """The checks, a shared one where it is used first, and the uses of each."""
    found: dict[str, CheckWork] = {}
    uses: dict[str, tuple[Member, ...]] = {}
    for part in parts:
        fault = part.problem.fault
        for check in part.problem.checks:
            name = part.shared.get(check.id, f"{fault}/{check.id}")
            means = [
                (side, [name_of[fault, cause] for cause in causes if (fault, cause) in name_of])
                for side, causes in check.outcomes
            ]
            before = found.get(name)
            found[name] = replace(
                check if before is None else before,
                id=name,
                outcomes=_united(() if before is None else before.outcomes, means),
                finds=check.finds if before is None else min(before.finds, check.finds),
                before_riding=check.before_riding or (before is not None and before.before_riding),
            )
            uses[name] = (*uses.get(name, ()), (fault, check.id))
    return tuple(found.values()), uses


def _united(
    before: Sequence[tuple[str, Sequence[str]]], more: Sequence[tuple[str, Sequence[str]]]
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """What the results mean in one use and in another.

    The two sides of a reading never mean the same cause: where faults differ about one that they share, the side that
    was named first holds.
    """
    sides = {side: dict.fromkeys(causes) for side, causes in [*((side, ()) for side, _ in more), *before]}
    for side, causes in more:
        for cause in causes:
            if not any(cause in each for each in sides.values()):
                sides[side][cause] = None
    return tuple((side, tuple(causes)) for side, causes in sides.items())


def _causes(parts: Sequence[Part], joint: Mapping[str, float], unlisted: float) -> Iterator[JointCause]:
    totals = {part.problem.fault: sum(_all_cases(part.problem)) for part in parts}
    problems = {part.problem.fault: part.problem for part in parts}
    for name, weight in joint.items():
        fault, _, cause = name.partition("/")
        yield JointCause(id=name, mean=weight, cases=counted_cases(problems[fault], cause), of=totals[fault])
    cases = sum(counted_cases(each, UNLISTED) for each in problems.values())
    yield JointCause(id=UNLISTED, mean=unlisted, cases=cases, of=sum(totals.values()))


def _all_cases(problem: Problem) -> Iterator[int]:
    yield counted_cases(problem, UNLISTED)
    for cause in problem.evidence.causes:
        yield cause.cases
