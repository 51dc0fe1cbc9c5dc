"""What most people do: look for the likeliest cause first. A baseline, to be compared with the plan."""

from __future__ import annotations

from itertools import pairwise

from kbtools.checkplan.search import HAND_OVER, Search, Solved, causes_in, tied
from kbtools.checkplan.table import State


def likeliest_first(search: Search, start: State) -> float:
    """The expected cost of going after the likeliest cause first, weighted with the state's weight.

    While more than one cause is left: of the possible causes by falling weight the first listed one that has an
    available check pointing to it takes the cheapest such check, or has an available trial fix takes that. If none has,
    the bike is handed over.
    """
    return Follower(search).solved(*start)[0]


class Follower:
    """Goes after the likeliest cause first, from whatever state."""

    __slots__ = ("_known", "search")

    def __init__(self, search: Search) -> None:
        self.search = search
        self._known: dict[State, Solved] = {}

    def solved(self, possible: int, good: int, opened: int) -> Solved:
        """What it costs from a state on, weighted, and what is done in it."""
        state = (possible, good, opened)
        if state not in self._known:
            self._known[state] = self._next(*state)
        return self._known[state]

    def choice(self, possible: int, good: int, opened: int) -> int:
        """What is done in a state; what follows it plays no part."""
        search = self.search
        if possible & (possible - 1) == 0:
            return search.known(possible, good, opened)[1]
        for cause in by_falling_weight(search, possible, good):
            check = cheapest_check(search, cause, possible, good, opened)
            if check is not None:
                return check
            if search.table.fixes[cause].trial:
                return len(search.table.checks) + cause
        return HAND_OVER

    def _next(self, possible: int, good: int, opened: int) -> Solved:
        search = self.search
        choice, checks = self.choice(possible, good, opened), len(search.table.checks)
        if choice < 0:
            one = possible & (possible - 1) == 0
            return search.known(possible, good, opened) if one else (search.weighed(possible, good)[1], HAND_OVER)
        if choice < checks:
            return self._after_check(choice, possible, good, opened), choice
        cause = choice - checks
        paid = search.weighed(possible, good)[0] * search.home_cost(cause, opened)
        return paid + self.solved(possible & ~(1 << cause), good, opened)[0], choice

    def _after_check(self, place: int, possible: int, good: int, opened: int) -> float:
        check = self.search.table.checks[place]
        total = self.search.weighed(possible, good)[0] * self.search.check_cost(place, opened)
        after = check.opened_after(opened)
        for each in check.sets:
            if each & possible:
                total += check.finds * self.solved(each & possible, good, after)[0]
        rest, good = self.search.after_good(place, possible, good)
        return total + self.solved(rest, good, after)[0] if rest else total


def by_falling_weight(search: Search, possible: int, good: int) -> list[int]:
    """The listed ones of the possible causes, the heaviest first; those of equal weight in file order."""
    weights = search.weights(good)
    left = [cause for cause in causes_in(possible) if cause != search.last]
    falling = sorted(left, key=lambda cause: -weights[cause])
    if not any(tied(weights[one], weights[other]) for one, other in pairwise(falling)):
        return falling
    ordered = []
    while left:
        most = max([weights[cause] for cause in left])
        ordered.append(next(cause for cause in left if tied(most, weights[cause])))
        left.remove(ordered[-1])
    return ordered


def cheapest_check(search: Search, cause: int, possible: int, good: int, opened: int) -> int | None:
    """The cheapest available check that points to a cause, the first of equal ones; None where there is none."""
    costs = {
        place: search.check_cost(place, opened)
        for place, bit, *_ in search.near(possible)[2]
        if not good & bit and search.table.checks[place].union >> cause & 1
    }
    least = min(costs.values(), default=0.0)
    return min([place for place, each in costs.items() if tied(each, least)], default=None)
