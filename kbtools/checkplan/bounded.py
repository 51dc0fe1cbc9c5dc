"""A good plan where the best one has more states than anyone would wait for, and how much better any could be.

The plan is the cheapest of those that look, at each step, at a few of the checks and trial fixes only, or one of the
two baselines if that is cheaper. The bound is what no plan can do without, exactly so in its first steps and with the
cause given away for nothing after them.
"""

from __future__ import annotations

from typing import Protocol

from kbtools.checkplan.likeliest import Follower
from kbtools.checkplan.search import HAND_OVER, Near, Search, Solved, TooLargeError
from kbtools.checkplan.table import State

_WIDTHS = (3, 2, 1)
"""How many checks, and how many trial fixes, are looked at in each state; the first that can be solved is taken."""
_NARROW_STATES = 20_000
_DEPTH = 2
"""Steps that the bound takes exactly."""


class Policy(Protocol):
    """Says what to do in each state."""

    def solved(self, possible: int, good: int, opened: int) -> Solved:
        """Cost from a state on, weighted, and the choice in it."""


class _Narrow(Search):
    """The search with a few options in each state: those that are likely to pay first."""

    __slots__ = ("_width",)

    def __init__(self, search: Search, width: int, most: int) -> None:
        super().__init__(search.table, most)
        self._width = width

    def _solve(self, near: Near, possible: int, good: int, opened: int) -> Solved:
        moves = [move for move in near[2] if not good & move[1]][: self._width]
        return super()._solve((near[0], near[1], tuple(moves), near[3][: self._width]), possible, good, opened)


class _HandOver:
    """Hands over, unless one cause is left."""

    def __init__(self, search: Search) -> None:
        self._search = search

    def solved(self, possible: int, good: int, opened: int) -> Solved:
        if possible & (possible - 1) == 0:
            return self._search.known(possible, good, opened)
        return self._search.weighed(possible, good)[1], HAND_OVER


def policy_of(search: Search, start: State) -> tuple[Policy, float | None]:
    """The cheapest policy from a state on, and None.

    Where it has too many states: a good one, and what any policy is expected to cost at least, weighted.
    """
    try:
        search.solved(*start)
    except TooLargeError:
        return good_policy(search, start), at_least(search, start)
    return search, None


def good_policy(search: Search, start: State) -> Policy:
    """The cheapest policy that is found in bounded time: no dearer than handing over or the likeliest first."""
    policies: list[Policy] = [*_narrow(search, start), Follower(search), _HandOver(search)]
    return min(policies, key=lambda policy: policy.solved(*start)[0])


def _narrow(search: Search, start: State) -> list[Policy]:
    for width in _WIDTHS:
        policy = _Narrow(search, width, min(_NARROW_STATES, search.most))
        try:
            policy.solved(*start)
        except TooLargeError:
            continue
        return [policy]
    return []


def at_least(search: Search, start: State) -> float:
    """What every plan from a state on is expected to cost at least, weighted with the state's weight."""
    return _Bound(search).of(start, _DEPTH)


class _Bound:
    def __init__(self, search: Search) -> None:
        self._search = search

    def of(self, state: State, depth: int) -> float:
        possible, good, opened = state
        search = self._search
        if possible & (possible - 1) == 0:
            return search.known(possible, good, opened)[0]
        weight, best, floor = search.weighed(possible, good)
        if depth == 0:
            return floor
        near = search.near(possible)
        for place in [move[0] for move in near[2] if not good & move[1]]:
            cost = weight * search.check_cost(place, opened)
            best = min(best, cost + self._after(place, state, depth))
        for cause in near[3]:
            cost = weight * search.home_cost(cause, opened)
            best = min(best, cost + self._after(len(search.table.checks) + cause, state, depth))
        return max(floor, best)

    def _after(self, choice: int, state: State, depth: int) -> float:
        return sum([chance * self.of(then, depth - 1) for chance, then in self._search.following(choice, state)])
