"""The cheapest plan, exactly: dynamic programming over the states that can be reached.

All figures of a state are weighted with the state's own weight (the sum of its causes' weights), not divided by it:
then those of an option are plain sums of those that follow, and nothing is divided before the end. Minutes and steps
decide between equal costs only, so they are worked out where costs are equal, and along the plan.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from kbtools.checkplan.prices import Prices
from kbtools.checkplan.table import CheckRow, State, Table

TIE = 1e-9
"""Figures that differ by at most this part of the larger one are the same."""
_SLACK = 1 / (1 - TIE)
"""`tied` the other way round: what is at most so many times the least is equal to it."""

MOST_STATES = 100_000
"""Twelve causes with twelve checks that miss and overlap, and some trial fixes, have some ten thousand. A dozen trial
fixes beside them have millions, and an entry comes from anyone: nobody shall wait for that."""

HAND_OVER, HOME, WORKSHOP = -1, -2, -3
"""Choices beside checks and trial fixes: hand over; the cause being known, fix it at home or have it fixed."""

Weighed = tuple[float, float, float]
"""Of a state: its weight, the weighted cost of handing over, and what no plan from it on can do without, weighted."""

Effort = tuple[float, float]
"""Of a state, weighted: expected own minutes, and expected steps."""

Solved = tuple[float, int]
"""Of a state: the expected cost of its cheapest plan, weighted, and the choice in it.

A choice of 0 or more is the place of a check, or, from the number of checks on, that and the place of a cause whose fix
to try.
"""

Move = tuple[int, int, float, int, int, float, tuple[int, ...], tuple[int, ...], int, int]
"""A check that can tell some possible causes apart.

Its place; its bit, set in a state where it has come out good; its price once access is open; its access jobs, as bits;
those that may stay open during it; its chance to show a cause that it points to; places of the causes that a result
singles out; the possible causes after
each other result but good that can come out; those after a good one, 0 where that cannot come out; its bit again where
a good result only speaks against its causes, or 0.
"""

Near = tuple[int, int, tuple[Move, ...], tuple[int, ...]]
"""What can still matter with some causes possible; it only shrinks from state to state.

The checks that point to any of these causes, as bits; the access jobs of useful checks and of these causes' fixes, as
bits; the useful checks, those likely to pay first; places of the causes whose fix may be tried.
"""


class TooLargeError(ValueError):
    """The plan of an entry has more states than anyone would wait for: see `bounded.py`."""


def tied(figure: float, least: float) -> bool:
    """Whether a figure counts as the same as one that is not larger."""
    return figure - least <= TIE * figure


class Search(Prices):
    """The plan of one table. A state is solved when it is asked for, and kept."""

    __slots__ = (
        *("_effort", "_ends", "_near", "_order", "_repairs", "_solved", "_weighed", "_weights", "_wide"),
        *("last", "least", "most"),
    )

    def __init__(self, table: Table, most: int = MOST_STATES) -> None:
        super().__init__(table)
        self.most = most
        """States that may be solved."""
        self.last = len(table.causes) - 1
        """Place of `unlisted`."""
        self._wide = len(table.causes), len(table.causes) + len(table.checks)
        self._solved: dict[int, Solved] = {}
        self._effort: dict[State, Effort] = {}
        self._near: dict[int, Near] = {}
        self._weights: dict[int, tuple[float, ...]] = {0: table.weights}
        self._weighed: dict[int, Weighed] = {}
        self._repairs = (*(fix.workshop for fix in table.fixes), table.unlisted_repair)
        unlisted = table.hand_over + table.unlisted_repair, HAND_OVER
        self._ends: list[tuple[dict[int, Solved], int]] = [({}, fix.access) for fix in table.fixes]
        self._ends.append(({0: unlisted}, 0))
        everything = (1 << len(table.access)) - 1
        mended = [
            min(self.end(cause, everything)[0], table.hand_over + fix.workshop) for cause, fix in enumerate(table.fixes)
        ]
        self.least = (*mended, table.hand_over + table.unlisted_repair)
        """Of each cause the least that ends it, with all open that its fix could use."""
        self._order = sorted(range(len(table.checks)), key=self._worth)

    # The search

    def solved(self, possible: int, good: int, opened: int) -> Solved:
        """The cheapest plan from a state on. At least one cause must be possible."""
        if not possible & (possible - 1):
            return self.known(possible, good, opened)
        near = self._near.get(possible) or self.near(possible)
        # What cannot matter any more makes no other state.
        good &= near[0]
        opened &= near[1]
        key = possible | good << self._wide[0] | opened << self._wide[1]
        found = self._solved.get(key)
        if found is None:
            if len(self._solved) > self.most:
                raise TooLargeError(f"more than {self.most} states")
            found = self._solved[key] = self._solve(near, possible, good, opened)
        return found

    def _solve(  # noqa: C901 (calls cost a tenth of the time each)
        self, near: Near, possible: int, good: int, opened: int
    ) -> Solved:
        weight, best, floor = self.weighed(possible, good)
        options = [(best, HAND_OVER)]
        rate, solved, weighed = self.table.rate, self.solved, self.weighed
        weights, ends = self.weights(good), self._ends
        for place, bit, price, access, keeps, finds, singled, found, rest, then in near[2]:
            if good & bit:
                continue
            cost = weight * price
            kept = opened & keeps
            if access & ~kept:
                cost += weight * rate * self.opening(access & ~kept)
            # Whatever comes out, the bike is mended in the end: what is too dear for that is looked no further into.
            if cost + floor > best * _SLACK:
                continue
            after = kept | access
            for cause in singled:
                known, contained = ends[cause]
                end = known.get(after & contained) or self.end(cause, after)
                cost += finds * weights[cause] * end[0]
            for each in found:
                cost += finds * solved(each, good, after)[0]
            if rest:
                # A good result leads to the largest state: it is looked into only if that can pay.
                if cost + weighed(rest, good | then)[2] > best * _SLACK:
                    continue
                cost += solved(rest, good | then, after)[0]
            options.append((cost, place))
            if cost < best:  # noqa: PLR1730 (a call of min is a tenth of the time here)
                best = cost
        for cause in near[3]:
            cost = weight * self.home_cost(cause, opened)
            if cost + weighed(possible ^ 1 << cause, good)[2] > best * _SLACK:
                continue
            cost += solved(possible ^ 1 << cause, good, opened)[0]
            options.append((cost, len(self.table.checks) + cause))
            best = min(best, cost)
        limit = best * _SLACK
        left = [each for each in options if each[0] <= limit]
        return left[0] if len(left) == 1 else self._first(left, (possible, good, opened))

    def _first(self, options: Sequence[Solved], state: State) -> Solved:
        """Of options that cost the same, that with fewer own minutes, then with fewer steps, then the first."""
        figures = [self._effort_of(choice, state) for _, choice in options]
        left = list(zip(options, figures, strict=True))
        for column in (0, 1):
            least = min([figures[column] for _, figures in left])
            left = [each for each in left if tied(each[1][column], least)]
        last = len(self.table.checks) + len(self.table.causes)
        return min([option for option, _ in left], key=lambda each: each[1] if each[1] >= 0 else last)

    def known(self, possible: int, good: int, opened: int) -> Solved:
        """The only cause left: its fix, at home or in a workshop; handing over, where it is not listed."""
        cause = possible.bit_length() - 1
        cost, choice = self.end(cause, opened)
        return self.weights(good)[cause] * cost, choice

    def end(self, cause: int, opened: int) -> Solved:
        """What the bike costs once this is known to be the cause, not weighted; and where it is mended."""
        known, contained = self._ends[cause]
        found = known.get(opened & contained)
        if found is None:
            found = known[opened & contained] = self._home_or_workshop(cause, opened)
        return found

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
        table = self.table
        moves = []
        good = access = 0
        for place in self._order:
            check = table.checks[place]
            if check.union & possible:
                good |= 1 << place
                if check.possible and possible not in [each & possible for each in check.sets]:
                    moves.append(_move(place, check, possible, table.rate))
                    access |= check.access
        trials = []
        for cause, fix in enumerate(table.fixes):
            if possible >> cause & 1 and fix.possible:
                access |= fix.access
                if fix.trial:
                    trials.append(cause)
        return good, access, tuple(moves), tuple(trials)

    def _worth(self, place: int) -> float:
        """Price for each chance of finding something: the order in which checks are looked into, no more than that."""
        check = self.table.checks[place]
        chance = sum(weight for bit, weight in enumerate(self.table.weights) if check.union >> bit & 1)
        return self.check_cost(place, 0) / (check.finds * chance) if chance else inf

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
        """The weight of a state, what handing over costs in it, and the least that any plan does."""
        key = possible | good << self._wide[0]
        found = self._weighed.get(key)
        if found is None:
            weight = repair = least = 0.0
            for bit, own in enumerate(self.weights(good)):
                if possible >> bit & 1:
                    weight += own
                    repair += own * self._repairs[bit]
                    least += own * self.least[bit]
            found = self._weighed[key] = weight, repair + weight * self.table.hand_over, least
        return found

    # Along the plan

    def after_good(self, place: int, possible: int, good: int) -> tuple[int, int]:
        """Causes and imperfect checks after a good result: a perfect check rules out, another only speaks against."""
        check = self.table.checks[place]
        if check.finds == 1:
            return possible & ~check.union, good
        return possible, good | 1 << place

    def effort(self, state: State) -> Effort:
        """The owner's own minutes and the steps that the cheapest plan takes from a state on."""
        found = self._effort.get(state)
        if found is None:
            found = self._effort[state] = self._effort_of(self.solved(*state)[1], state)
        return found

    def _effort_of(self, choice: int, state: State) -> Effort:
        """The same for a plan that begins with a choice, and is the cheapest from there on."""
        weight = self.weighed(state[0], state[1])[0]
        minutes, steps = weight * self._own_minutes(choice, state), weight
        for chance, then in self.following(choice, state):
            more = self.effort(then)
            minutes += chance * more[0]
            steps += chance * more[1]
        return minutes, steps

    def following(self, choice: int, state: State) -> list[tuple[float, State]]:
        """The states after a choice, each with the chance that its weight leaves out."""
        if choice < 0:
            return []
        possible, good, opened = state
        if choice >= len(self.table.checks):
            return [(1.0, (possible ^ 1 << choice - len(self.table.checks), good, opened))]
        check = self.table.checks[choice]
        after = check.opened_after(opened)
        then = [(check.finds, (each & possible, good, after)) for each in check.sets]
        then.append((1.0, (*self.after_good(choice, possible, good), after)))
        return [each for each in then if each[1][0]]

    def _own_minutes(self, choice: int, state: State) -> float:
        if choice in {HAND_OVER, WORKSHOP}:
            return 0.0
        if choice == HOME:
            return self.home_minutes(state[0].bit_length() - 1, state[2])
        count = len(self.table.checks)
        if choice < count:
            return self.check_minutes(choice, state[2])
        return self.home_minutes(choice - count, state[2])


def _move(place: int, check: CheckRow, possible: int, rate: float) -> Move:
    found = [each & possible for each in check.sets if each & possible]
    singled = tuple([each.bit_length() - 1 for each in found if not each & (each - 1)])
    others = tuple([each for each in found if each & (each - 1)])
    perfect = check.finds == 1
    rest = possible & ~check.union if perfect else possible
    then = 0 if perfect else 1 << place
    price = check.minutes * rate + check.money
    return place, 1 << place, price, check.access, check.keeps, check.finds, singled, others, rest, then


def causes_in(possible: int) -> list[int]:
    """Places of the causes in a set, rising."""
    return [bit for bit in range(possible.bit_length()) if possible >> bit & 1]
