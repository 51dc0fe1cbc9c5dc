"""The cheapest plan as a tree of steps, in the form in which `kbtools plan --format json` and the pages have it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Literal

from kbtools.checkplan.bounded import Policy, policy_of
from kbtools.checkplan.likeliest import likeliest_first
from kbtools.checkplan.owner import Owner
from kbtools.checkplan.problem import Problem
from kbtools.checkplan.search import HAND_OVER, HOME, MOST_STATES, Search
from kbtools.checkplan.table import State, Table, start_of, table_of
from kbtools.evidence import Share, by_falling_share, shares

StepKind = Literal["check", "trial_fix", "fix", "hand_over"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of a plan. The next one in its list follows a good result, or a trial fix that did not help."""

    kind: StepKind
    """What to do."""
    id: str | None
    """Of the check, or of the cause whose fix it is; None for handing over."""
    cost: float
    """What the step costs whoever gets there: money, and the owner's time in money."""
    minutes: float
    """The owner's own minutes for it, opening included."""
    reach: float
    """Probability, from the start, of getting there. The sum of reach · cost over all steps is the expected cost."""
    access: tuple[str, ...] = ()
    """Ids of the access jobs that a check opens now, what is needed first first."""
    outcomes: Mapping[str, tuple[Step, ...]]
    """Of a check: `bad`, or `low` and `high`, each with the steps that follow; empty where that cannot come out."""
    where: Literal["home", "workshop", "maker"] | None = None
    """Of a fix: where it costs less; `maker`: the maker pays."""
    inferred: bool = False
    """Of a fix: no check that was done points to the cause, so that it is known by elimination alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The cheapest plan of a fault for an owner."""

    fault: str
    """Id of the fault."""
    expected_cost: float | None
    """From here until the bike is fixed; None where the results contradict each other."""
    currency: str
    """ISO 4217 code."""
    hand_over: float | None
    """Expected cost of handing the bike over at once."""
    likeliest_first: float | None
    """Expected cost of going after the likeliest cause first."""
    minutes: float | None
    """Expected own minutes of the plan."""
    steps: tuple[Step, ...]
    """The first is what to do now. Empty where the results contradict each other."""
    causes: tuple[Share, ...]
    """The shares by cases alone, the largest first, `unlisted` among them."""
    chances: Mapping[str, float]
    """The same after the results: id → probability. A cause that is ruled out is not in it."""
    at_least: float | None = None
    """None: it is the cheapest of all plans. Else what any plan is expected to cost at least."""


def plan_of(problem: Problem, owner: Owner, most_states: int = MOST_STATES) -> Plan:
    """The cheapest plan of a problem for an owner, and what the two baselines would cost.

    Where it has more than `most_states` states, it is a good one, no dearer than either baseline, with a bound.
    """
    search = Search(table_of(problem, owner), most_states)
    start = start_of(search.table, owner.results)
    possible, good, _ = start
    rows = by_falling_share(shares(problem.evidence, owner.bike))
    weight = search.weighed(possible, good)[0] if possible else 0.0
    if not possible:
        return Plan(
            fault=problem.fault,
            expected_cost=None,
            currency=problem.currency,
            hand_over=None,
            likeliest_first=None,
            minutes=None,
            steps=(),
            causes=rows,
            chances={},
        )
    weights = search.weights(good)
    policy, bound = policy_of(search, start)
    cost, _ = policy.solved(*start)
    steps = tuple(_Tree(search, policy, weight).steps(start, shown_by(search.table, owner.results, possible), 1.0))
    return Plan(
        fault=problem.fault,
        expected_cost=cost / weight,
        currency=problem.currency,
        hand_over=search.weighed(possible, good)[1] / weight,
        likeliest_first=likeliest_first(search, start) / weight,
        minutes=expected_minutes(steps),
        steps=steps,
        causes=rows,
        chances={each: weights[bit] / weight for bit, each in enumerate(search.table.causes) if possible >> bit & 1},
        at_least=None if bound is None else bound / weight,
    )


def expected_minutes(steps: tuple[Step, ...]) -> float:
    """The owner's own minutes over all steps of a tree, each as likely as it is reached."""
    own = sum([step.reach * step.minutes for step in steps])
    return own + sum([expected_minutes(then) for step in steps for then in step.outcomes.values() if then])


def shown_by(table: Table, results: Mapping[str, str], possible: int) -> int:
    """The causes that all bad, low and high results together mean, as bits.

    One that means none of the `possible` causes tells of a second fault, and shows nothing of this one.
    """
    shown = table.everything
    for check in table.checks:
        result = results.get(check.id)
        means = check.sets[check.names.index(result)] if result in check.names else shown
        if means & possible:
            shown &= means
    return shown


class _Tree:
    """Follows the choices of a policy."""

    __slots__ = ("policy", "search", "whole")

    def __init__(self, search: Search, policy: Policy, whole: float) -> None:
        self.search = search
        self.policy = policy
        self.whole = whole
        """Weight of the start."""

    def steps(self, state: State, shown: int, found: float) -> Iterator[Step]:
        """The steps from a state on.

        Args:
            state: where it begins.
            shown: the causes that the bad, low and high results up to there mean, as bits.
            found: product of the chances (`finds`) of those results, which the weight of a state leaves out.
        """
        checks = self.search.table.checks
        while state[0]:
            possible, good, opened = state
            choice = self.policy.solved(*state)[1]
            reach = self.search.weighed(possible, good)[0] * found / self.whole
            if choice < 0:
                yield self._end(choice, state, reach, shown)
                return
            if choice < len(checks):
                yield self._check(choice, state, shown, found, reach)
                state = (*self.search.after_good(choice, possible, good), checks[choice].opened_after(opened))
            else:
                cause = choice - len(checks)
                yield self._at_home("trial_fix", cause, opened, reach)
                state = (possible & ~(1 << cause), good, opened)

    def _end(self, choice: int, state: State, reach: float, shown: int) -> Step:
        possible, good, opened = state
        cause = possible.bit_length() - 1
        if choice == HAND_OVER:
            weight, cost, _ = self.search.weighed(possible, good)
            return Step(kind="hand_over", id=None, cost=cost / weight, minutes=0.0, reach=reach, outcomes={})
        inferred = shown != possible
        if choice == HOME:
            return replace(self._at_home("fix", cause, opened, reach), where="home", inferred=inferred)
        fix = self.search.table.fixes[cause]
        return Step(
            kind="fix",
            id=self.search.table.causes[cause],
            cost=fix.known,
            minutes=0.0,
            reach=reach,
            outcomes={},
            where="maker" if fix.covered else "workshop",
            inferred=inferred,
        )

    def _at_home(self, kind: StepKind, cause: int, opened: int, reach: float) -> Step:
        return Step(
            kind=kind,
            id=self.search.table.causes[cause],
            cost=self.search.home_cost(cause, opened),
            minutes=self.search.home_minutes(cause, opened),
            reach=reach,
            outcomes={},
        )

    def _check(self, place: int, state: State, shown: int, found: float, reach: float) -> Step:
        possible, good, opened = state
        table = self.search.table
        check = table.checks[place]
        after = check.opened_after(opened)
        outcomes = {}
        for name, each in zip(check.names, check.sets, strict=True):
            following = self.steps((possible & each, good, after), shown & each, found * check.finds)
            outcomes[name] = tuple(following)
        now = check.access & ~(opened & check.keeps)
        return Step(
            kind="check",
            id=check.id,
            cost=self.search.check_cost(place, opened),
            minutes=self.search.check_minutes(place, opened),
            reach=reach,
            access=tuple(job for bit, job in enumerate(table.access) if now >> bit & 1),
            outcomes=outcomes,
        )
