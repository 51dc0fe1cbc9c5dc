"""What a fault's page would have said to each of its counted cases, by the cases that were seen before it.

The plan depends on the shares alone, and these on which causes exist on the bike and on how many cases of each were
seen: cases that have both in common share one search.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from kbtools.checkplan.bounded import policy_of
from kbtools.checkplan.given_cause import cost_with, handed_over
from kbtools.checkplan.likeliest import Follower
from kbtools.checkplan.owner import Owner
from kbtools.checkplan.problem import Problem
from kbtools.checkplan.search import Search, tied
from kbtools.checkplan.table import Table, start_of, table_of
from kbtools.index.answers import ModelYear


@dataclass(frozen=True, slots=True, kw_only=True)
class Turned:
    """How a counted case turned out."""

    day: int
    """Day on which it was seen, as an ordinal."""
    bike: ModelYear | None
    """Its machine; None of a damaged case."""
    cause: str
    """Id of its cause, or `unlisted`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """What was said to a case: shares, and what each way of going about it costs with the cause that it had."""

    cause: int
    """Place of what it was in the shares; the last one is `unlisted`."""
    shares: tuple[float, ...]
    """Of the causes that exist on its bike, in file order, then `unlisted`: by the cases seen before it."""
    judgement: tuple[float, ...]
    """The same by the curators' judgement alone."""
    cost: float
    """Expected cost of the plan for an owner of whom nothing is known, given the cause."""
    hand_over: float
    """Of handing over at once, likewise."""
    likeliest_first: float
    """Of going after the likeliest cause first, likewise."""

    @property
    def share(self) -> float:
        """The share of what it was."""
        return self.shares[self.cause]

    @property
    def rank(self) -> int:
        """Its place among the shares, 1 the likeliest; of equal ones the first in the file comes first."""
        own = self.share
        return 1 + sum(
            place < self.cause if tied(max(share, own), min(share, own)) else share > own
            for place, share in enumerate(self.shares)
        )


def advice_of(problem: Problem, cases: Sequence[Turned]) -> Iterator[Advice]:
    """What was said to each of the counted cases of a fault, in their order, which is that of the days.

    Args:
        problem: of the fault; how many cases are counted in it changes nothing.
        cases: all of them, the first seen first.
    """
    said = _Said(problem)
    seen: Counter[str] = Counter()
    for _, group in groupby(cases, key=lambda case: case.day):
        today = list(group)
        # Cases of one day do not know of each other.
        for case in today:
            yield said.to(case, seen)
        seen.update(case.cause for case in today)


class _Said:
    """The advice of one fault, with any number of cases."""

    def __init__(self, problem: Problem) -> None:
        causes = tuple(replace(cause, counted={}) for cause in problem.evidence.causes)
        self._problem = replace(problem, evidence=replace(problem.evidence, causes=causes, unlisted={}))
        self._strength = problem.evidence.prior_strength
        self._tables: dict[tuple[bool, ...], Table] = {}
        self._ways: dict[tuple[tuple[str, ...], tuple[int, ...]], _Ways] = {}

    def to(self, case: Turned, seen: Mapping[str, int]) -> Advice:
        table = self._table(case.bike)
        ids = table.causes
        counts = tuple([seen.get(each, 0) for each in ids])
        ways = self._ways.get((ids, counts))
        if ways is None:
            ways = self._ways[ids, counts] = _Ways(table, counts, self._strength)
        return ways.given(ids.index(case.cause) if case.cause in ids else len(ids) - 1)

    def _table(self, bike: ModelYear | None) -> Table:
        """The table of a bike before any case: it depends on which causes exist on it, and on nothing else of it."""
        kind = tuple([cause.exists_on(bike) for cause in self._problem.evidence.causes])
        found = self._tables.get(kind)
        if found is None:
            found = self._tables[kind] = table_of(self._problem, Owner(bike=bike))
        return found


class _Ways:
    """The ways of going about it, with these causes and so many cases of each."""

    def __init__(self, table: Table, counts: Sequence[int], strength: float) -> None:
        self._judgement = table.weights
        alphas = [strength * share + count for share, count in zip(table.weights, counts, strict=True)]
        whole = strength + sum(counts)
        self._shares = tuple([alpha / whole for alpha in alphas])
        self._search = Search(replace(table, weights=self._shares))
        self._start = start_of(table, {})
        self._policy = policy_of(self._search, self._start)[0]
        self._known: dict[int, Advice] = {}

    def given(self, cause: int) -> Advice:
        found = self._known.get(cause)
        if found is None:
            search, start = self._search, self._start
            found = self._known[cause] = Advice(
                cause=cause,
                shares=self._shares,
                judgement=self._judgement,
                cost=cost_with(cause, lambda *state: self._policy.solved(*state)[1], search, start),
                hand_over=handed_over(cause, search.table),
                likeliest_first=cost_with(cause, Follower(search).choice, search, start),
            )
        return found
