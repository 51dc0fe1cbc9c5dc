"""The cheapest plan, exactly: dynamic programming over the states that can be reached.

All figures of a state are weighted with the state's own weight (the sum of its causes' weights), not divided by it:
then those of an option are plain sums of those that follow, and nothing is divided before the end. Minutes and steps
decide between equal costs only, so they are worked out where costs are equal, and along the plan.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from kbtools.checkplan.table import State, Table

TIE = 1e-9
"""Figures that differ by at most this part of the larger one are the same."""
_SLACK = 1 + 2 * TIE
"""An option above the best by more than this is neither the best nor equal to it."""

HAND_OVER, HOME, WORKSHOP = -1, -2, -3
"""Choices beside checks and trial fixes: hand over; the cause being known, fix it at home or have it fixed."""

Solved = tuple[float, int]
"""Of a state: the expected cost of its cheapest plan, weighted, and the choice in it. A choice of 0 or more is the place
of a check, or, from the number of checks on, that and the place of a cause whose fix to try."""


class Move(NamedTuple):
    """A check that can tell some possible causes apart."""

    place: int
    """Of the check."""
    bit: int
    """Its bit, set while it has come out good and may not be done again."""
    price: float
    """What it costs once access is open."""
    access: int
    """Access jobs that it takes, as bits."""
    finds: float
    """Chance that it shows a cause that it points to."""
    found: tuple[int, ...]
    """The possible causes after each result but good that can come out."""
    rest: int
    """The possible causes after a good result; 0 where that cannot come out."""
    then: int
    """Its bit where a good result only speaks against its causes, else 0."""


class Near(NamedTuple):
    """What can still matter with some causes possible. It only shrinks from state to state."""

    good: int
    """Checks that point to any of these causes, as bits."""
    access: int
    """Access jobs that useful checks take and the fixes of these causes contain, as bits."""
    moves: tuple[Move, ...]
    """The useful checks, those that are likely to pay first."""
    trials: tuple[int, ...]
    """Places of the causes whose fix may be tried, in file order."""
    causes: tuple[int, ...]
    """Places of the causes, in file order."""


class Weighed(NamedTuple):
    """What a set of causes weighs after some checks have come out good."""

    weight: float
    """The sum of the weights."""
    hand_over: float
    """Weighted cost of handing over."""
    least: float
    """Weighted cost that no plan can go below."""


def tied(figure: float, least: float) -> bool:
    """Whether a figure counts as the same as one that is not larger."""
    return figure - least <= TIE * figure


class Search:
    """The plan of one table. A state is solved when it is asked for, and kept."""

    __slots__ = ("_bounds", "_last", "_near", "_opening", "_solved", "_weighed", "_weights", "_wide", "last", "table")

    def __init__(self, table: Table) -> None:
        self.table = table
        self.last = len(table.causes) - 1
        """Place of `unlisted`."""
        self._wide = len(table.causes), len(table.causes) + len(table.checks)
        self._solved: dict[int, Solved] = {}
        self._last: dict[tuple[int, int], Solved] = {}
        self._near: dict[int, Near] = {}
        self._opening: dict[int, float] = {0: 0.0}
        self._weights: dict[int, tuple[float, ...]] = {0: table.weights}
        self._weighed: dict[int, dict[int, Weighed]] = {}
        self._bounds = self._lower_bounds()

    # The search

    def solved(self, possible: int, good: int, opened: int) -> Solved:
        """The cheapest plan from a state on. At least one cause must be possible."""
        if not possible & (possible - 1):
            return self.known(possible, good, opened)
        near = self._near.get(possible) or self.near(possible)
        # What cannot matter any more makes no other state.
        good &= near.good
        opened &= near.access
        key = possible | good << self._wide[0] | opened << self._wide[1]
        found = self._solved.get(key)
        if found is None:
            found = self._solved[key] = self._solve(near, possible, good, opened)
        return found

    def _solve(self, near: Near, possible: int, good: int, opened: int) -> Solved:
        weight, best, _ = self.weighed(possible, good)
        options = [(best, HAND_OVER)]
        closed = ~opened
        rate = self.table.rate
        for place, bit, price, access, finds, found, rest, then in near.moves:
            if good & bit:
                continue
            cost = weight * (price + rate * self.opening(access & closed))
            after = opened | access
            for each in found:
                cost += finds * self.solved(each, good, after)[0]
            if rest:
                # A good result leads to the largest state: it is looked into only if that can pay.
                if cost + self.weighed(rest, good | then).least > best * _SLACK:
                    continue
                cost += self.solved(rest, good | then, after)[0]
            options.append((cost, place))
            best = min(best, cost)
        for cause in near.trials:
            cost = weight * self.home_cost(cause, opened) + self.solved(possible ^ 1 << cause, good, opened)[0]
            options.append((cost, len(self.table.checks) + cause))
            best = min(best, cost)
        left = [each for each in options if tied(each[0], best)]
        return left[0] if len(left) == 1 else self._first(left, (possible, good, opened))

    def _first(self, options: Sequence[Solved], state: State) -> Solved:
        """Of options that cost the same, that with fewer own minutes, then with fewer steps, then the first."""
        for figure in (self._own_minutes, self._one):
            figures = [self._along(choice, state, figure) for _, choice in options]
            least = min(figures)
            options = [each for each, value in zip(options, figures, strict=True) if tied(value, least)]
        return min(options, key=lambda each: each[1] if each[1] >= 0 else len(self.table.checks) + len(self.table.causes))

    def known(self, possible: int, good: int, opened: int) -> Solved:
        """The only cause left: its fix, at home or in a workshop; handing over, where it is not listed."""
        cause = possible.bit_length() - 1
        weight = self.weights(good)[cause]
        if cause == self.last:
            return weight * (self.table.hand_over + self.table.unlisted_repair), HAND_OVER
        fix = self.table.fixes[cause]
        key = cause, opened & fix.access
        found = self._last.get(key)
        if found is None:
            found = self._last[key] = self._home_or_workshop(cause, opened)
        return weight * found[0], found[1]

    def _home_or_workshop(self, cause: int, opened: int) -> Solved:
        fix = self.table.fixes[cause]
        if not fix.possible:
            return fix.known, WORKSHOP
        cost = self.home_cost(cause, opened)
        if tied(max(cost, fix.known), min(cost, fix.known)):
            # Equal: the workshop takes none of the owner's minutes.
            return (cost, HOME) if self.home_minutes(cause, opened) == 0 else (fix.known, WORKSHOP)
        return (cost, HOME) if cost < fix.known else (fix.known, WORKSHOP)

    # What a state is made of

    def near(self, possible: int) -> Near:
        """What can still matter with these causes possible."""
        found = self._near.get(possible)
        if found is None:
            found = self._near[possible] = self._nearby(possible)
        return found

    def _nearby(self, possible: int) -> Near:
        moves = []
        good = access = 0
        for place, check in enumerate(self.table.checks):
            if not check.union & possible:
                continue
            good |= 1 << place
            if check.possible and all([possible & ~each for each in check.sets]):
                moves.append(self._move(place, possible))
                access |= check.access
        causes = tuple([bit for bit in range(self.last + 1) if possible >> bit & 1])
        listed = causes[:-1] if causes and causes[-1] == self.last else causes
        for cause in listed:
            if self.table.fixes[cause].possible:
                access |= self.table.fixes[cause].access
        moves.sort(key=self._worth)
        trials = tuple([cause for cause in listed if self.table.fixes[cause].trial])
        return Near(good, access, tuple(moves), trials, causes)

    def _move(self, place: int, possible: int) -> Move:
        check = self.table.checks[place]
        perfect = check.finds == 1
        return Move(
            place=place,
            bit=1 << place,
            price=check.minutes * self.table.rate + check.money,
            access=check.access,
            finds=check.finds,
            found=tuple([each & possible for each in check.sets if each & possible]),
            rest=possible & ~check.union if perfect else possible,
            then=0 if perfect else 1 << place,
        )

    def _worth(self, move: Move) -> float:
        """Price for each chance of finding something: the order in which checks are looked into, no more than that."""
        weights = self.table.weights
        union = self.table.checks[move.place].union
        chance = sum([weight for bit, weight in enumerate(weights) if union >> bit & 1])
        return (move.price + self.table.rate * self.opening(move.access)) / (move.finds * chance)

    def weights(self, good: int) -> tuple[float, ...]:
        """The weight of each cause after these imperfect checks have come out good."""
        found = self._weights.get(good)
        if found is None:
            place = good.bit_length() - 1
            check = self.table.checks[place]
            left = 1 - check.finds
            before = self.weights(good ^ 1 << place)
            found = tuple([w * left if check.union >> bit & 1 else w for bit, w in enumerate(before)])
            self._weights[good] = found
        return found

    def weighed(self, possible: int, good: int) -> Weighed:
        """What these causes weigh, and what handing over costs then."""
        known = self._weighed.get(good)
        if known is None:
            known = self._weighed[good] = {}
        found = known.get(possible)
        if found is None:
            found = known[possible] = self._weigh(possible, self.weights(good))
        return found

    def _weigh(self, possible: int, weights: tuple[float, ...]) -> Weighed:
        weight = hand_over = least = 0.0
        repairs, bounds = self._bounds
        open_end = possible >> self.last & 1
        for cause in self.near(possible).causes:
            own = weights[cause]
            weight += own
            hand_over += own * repairs[cause]
            least += own * bounds[cause][open_end]
        return Weighed(weight, hand_over, least)

    def _lower_bounds(self) -> tuple[list[float], list[tuple[float, float]]]:
        """Of each cause what handing over costs if it is present, and what any plan costs then at least.

        The second is given for states without `unlisted` and with it. Nothing rules out `unlisted` but a result that
        speaks for other causes, so with it a cause is found by a check that points to it, by trying its fix, or not.
        """
        table = self.table
        repairs = [table.hand_over + each for each in (*(fix.workshop for fix in table.fixes), table.unlisted_repair)]
        bounds = []
        for cause, fix in enumerate(table.fixes):
            home = self.home_cost(cause, fix.access) if fix.possible else fix.known
            least = min(home, fix.known, repairs[cause])
            checks = [
                check.minutes * table.rate + check.money
                for check in table.checks
                if check.possible and check.union >> cause & 1
            ]
            found = least + min(checks) if checks else repairs[cause]
            bounds.append((least, min(repairs[cause], found, home if fix.trial else found)))
        return repairs, [*bounds, (repairs[-1], repairs[-1])]

    # Prices

    def opening(self, jobs: int) -> float:
        """Minutes that these access jobs take together."""
        found = self._opening.get(jobs)
        if found is None:
            found = self._opening[jobs] = self.table.opening_minutes(jobs)
        return found

    def check_minutes(self, place: int, opened: int) -> float:
        """The owner's minutes for a check, opening what is not open yet."""
        check = self.table.checks[place]
        return check.minutes + self.opening(check.access & ~opened)

    def check_cost(self, place: int, opened: int) -> float:
        """What a check costs, opening what is not open yet."""
        return self.check_minutes(place, opened) * self.table.rate + self.table.checks[place].money

    def home_minutes(self, cause: int, opened: int) -> float:
        """The owner's minutes for a fix at home, less what is open already."""
        fix = self.table.fixes[cause]
        return max(0.0, fix.minutes - self.opening(fix.access & opened))

    def home_cost(self, cause: int, opened: int) -> float:
        """What a fix at home costs."""
        return self.table.fixes[cause].parts + self.home_minutes(cause, opened) * self.table.rate

    # Along the plan

    def after_good(self, place: int, possible: int, good: int) -> tuple[int, int]:
        """Causes and imperfect checks after a good result: a perfect check rules out, another only speaks against."""
        check = self.table.checks[place]
        if check.finds == 1:
            return possible & ~check.union, good
        return possible, good | 1 << place

    def minutes(self, state: State) -> float:
        """The owner's own minutes that the cheapest plan takes from a state on: expected, and weighted."""
        return self._along(self.solved(*state)[1], state, self._own_minutes)

    def _along(self, choice: int, state: State, figure: Callable[[int, State], float]) -> float:
        """The sum of a figure over the steps from a state on, beginning with a choice: expected, and weighted."""
        possible, good, opened = state
        total = self.weighed(possible, good).weight * figure(choice, state)
        if choice < 0:
            return total
        if choice >= len(self.table.checks):
            following = [(1.0, (possible ^ 1 << choice - len(self.table.checks), good, opened))]
        else:
            check = self.table.checks[choice]
            after = opened | check.access
            following = [(check.finds, (each & possible, good, after)) for each in check.sets]
            following.append((1.0, (*self.after_good(choice, possible, good), after)))
        for chance, then in following:
            if then[0]:
                total += chance * self._along(self.solved(*then)[1], then, figure)
        return total

    def _own_minutes(self, choice: int, state: State) -> float:
        if choice in {HAND_OVER, WORKSHOP}:
            return 0.0
        if choice == HOME:
            return self.home_minutes(state[0].bit_length() - 1, state[2])
        count = len(self.table.checks)
        if choice < count:
            return self.check_minutes(choice, state[2])
        return self.home_minutes(choice - count, state[2])

    @staticmethod
    def _one(_choice: int, _state: State) -> float:
        return 1.0
