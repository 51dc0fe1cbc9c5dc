"""The cheapest plan, exactly: dynamic programming over the states that can be reached.

All figures of a state are weighted with the state's own weight (the sum of its causes' weights), not divided by it:
then those of an option are plain sums of those that follow, and nothing is divided before the end.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from kbtools.checkplan.table import State, Table

TIE = 1e-9
"""Figures that differ by at most this part of the larger one are the same."""


class Figures(NamedTuple):
    """Of a state or an option: what is expected until the bike is fixed, weighted with the state's weight."""

    cost: float
    """Money, and the owner's time in money."""
    minutes: float
    """The owner's own minutes: checks, opening, and fixes at home less what was open already."""
    steps: float
    """Checks, trial fixes, fixes and handing over, each 1."""
    choice: int
    """What to do: the place of a check; from the number of checks on, that and the place of a cause whose fix to try;
    or one of the names below."""


HAND_OVER, HOME, WORKSHOP = -1, -2, -3
"""Choices: hand over; the cause being known, fix it at home or have it fixed."""


class Near(NamedTuple):
    """What can still matter with some causes possible. It only shrinks from state to state."""

    checks: tuple[int, ...]
    """Places of the checks that can tell these causes apart, in file order."""
    check_bits: int
    """Checks that point to any of these causes, as bits."""
    access: int
    """Access jobs that those checks take and the fixes of these causes contain, as bits."""


def tied(figure: float, least: float) -> bool:
    """Whether a figure counts as the same as one that is not larger."""
    return figure - least <= TIE * figure


class Search:
    """The plan of one table. A state is solved when it is asked for, and kept."""

    __slots__ = ("_figures", "_near", "_opening", "_sums", "_weights", "last", "table")

    def __init__(self, table: Table) -> None:
        self.table = table
        self.last = len(table.causes) - 1
        """Place of `unlisted`."""
        self._figures: dict[State, Figures] = {}
        self._near: dict[int, Near] = {}
        self._opening: dict[int, float] = {}
        self._weights: dict[int, tuple[float, ...]] = {0: table.weights}
        self._sums: dict[tuple[int, int], float] = {}

    def figures(self, possible: int, good: int, opened: int) -> Figures:
        """The figures of the cheapest plan from a state on. At least one cause must be possible."""
        near = self.near(possible)
        # What cannot matter any more makes no other state.
        key = (possible, good & near.check_bits, opened & near.access)
        found = self._figures.get(key)
        if found is None:
            found = self._figures[key] = self._solved(*key)
        return found

    def _solved(self, possible: int, good: int, opened: int) -> Figures:
        if possible & (possible - 1) == 0:
            return self.known(possible, good, opened)
        options = [
            *self._checks(possible, good, opened),
            *self._trials(possible, good, opened),
            self.hand_over(possible, good),
        ]
        return cheapest(options)

    def near(self, possible: int) -> Near:
        """What can still matter with these causes possible."""
        found = self._near.get(possible)
        if found is None:
            found = self._near[possible] = self._nearby(possible)
        return found

    def _nearby(self, possible: int) -> Near:
        places = []
        bits = access = 0
        for place, check in enumerate(self.table.checks):
            if not check.union & possible:
                continue
            bits |= 1 << place
            if check.possible and all(possible & ~each for each in check.sets):
                places.append(place)
                access |= check.access
        for cause in causes_in(possible):
            if cause != self.last and self.table.fixes[cause].possible:
                access |= self.table.fixes[cause].access
        return Near(tuple(places), bits, access)

    def weights(self, good: int) -> tuple[float, ...]:
        """The weight of each cause after these imperfect checks have come out good."""
        found = self._weights.get(good)
        if found is None:
            place = good.bit_length() - 1
            check = self.table.checks[place]
            before = self.weights(good ^ 1 << place)
            left = 1 - check.finds
            found = tuple(w * left if check.union >> bit & 1 else w for bit, w in enumerate(before))
            self._weights[good] = found
        return found

    def weight(self, possible: int, good: int) -> float:
        """The weight of a state: the sum of those of its causes."""
        found = self._sums.get((possible, good))
        if found is None:
            weights = self.weights(good)
            found = self._sums[possible, good] = sum([weights[cause] for cause in causes_in(possible)])
        return found

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

    def known(self, possible: int, good: int, opened: int) -> Figures:
        """The only cause left: its fix, at home or in a workshop; handing over, where it is not listed."""
        cause = possible.bit_length() - 1
        if cause == self.last:
            return self.hand_over(possible, good)
        weight = self.weights(good)[cause]
        fix = self.table.fixes[cause]
        workshop = Figures(weight * fix.known, 0.0, weight, WORKSHOP)
        if not fix.possible:
            return workshop
        minutes = weight * self.home_minutes(cause, opened)
        return cheapest([Figures(weight * self.home_cost(cause, opened), minutes, weight, HOME), workshop])

    def hand_over(self, possible: int, good: int) -> Figures:
        """Hand the bike over to a workshop, which finds out."""
        weights = self.weights(good)
        repair = sum([weights[cause] * self.repair(cause) for cause in causes_in(possible)])
        weight = self.weight(possible, good)
        return Figures(weight * self.table.hand_over + repair, 0.0, weight, HAND_OVER)

    def repair(self, cause: int) -> float:
        """What a workshop takes for the repair of a cause."""
        return self.table.unlisted_repair if cause == self.last else self.table.fixes[cause].workshop

    def _checks(self, possible: int, good: int, opened: int) -> Iterator[Figures]:
        for place in self.near(possible).checks:
            if not good >> place & 1:
                yield self._check(place, possible, good, opened)

    def _check(self, place: int, possible: int, good: int, opened: int) -> Figures:
        check = self.table.checks[place]
        weight = self.weight(possible, good)
        cost = weight * self.check_cost(place, opened)
        minutes = weight * self.check_minutes(place, opened)
        steps = weight
        after = opened | check.access
        for each in check.sets:
            if each & possible:
                more = self.figures(each & possible, good, after)
                cost += check.finds * more.cost
                minutes += check.finds * more.minutes
                steps += check.finds * more.steps
        rest, good = self.after_good(place, possible, good)
        if rest:
            more = self.figures(rest, good, after)
            return Figures(cost + more.cost, minutes + more.minutes, steps + more.steps, place)
        return Figures(cost, minutes, steps, place)

    def after_good(self, place: int, possible: int, good: int) -> tuple[int, int]:
        """Causes and imperfect checks after a good result: a perfect check rules out, another one only speaks against."""
        check = self.table.checks[place]
        if check.finds == 1:
            return possible & ~check.union, good
        return possible, good | 1 << place

    def trial_causes(self, possible: int) -> list[int]:
        """Places of the possible causes whose fix may be tried, in file order."""
        return [cause for cause in causes_in(possible) if cause != self.last and self.table.fixes[cause].trial]

    def _trials(self, possible: int, good: int, opened: int) -> Iterator[Figures]:
        weight = self.weight(possible, good)
        for cause in self.trial_causes(possible):
            more = self.figures(possible & ~(1 << cause), good, opened)
            yield Figures(
                weight * self.home_cost(cause, opened) + more.cost,
                weight * self.home_minutes(cause, opened) + more.minutes,
                weight + more.steps,
                len(self.table.checks) + cause,
            )


def causes_in(possible: int) -> list[int]:
    """Places of the causes in a set, rising."""
    return [bit for bit in range(possible.bit_length()) if possible >> bit & 1]


def cheapest(options: Sequence[Figures]) -> Figures:
    """The cheapest option; of equal ones that with fewer own minutes, then with fewer steps, then the first."""
    least = min([each.cost for each in options])
    left = [each for each in options if tied(each.cost, least)]
    if len(left) > 1:
        least = min([each.minutes for each in left])
        left = [each for each in left if tied(each.minutes, least)]
    if len(left) > 1:
        least = min([each.steps for each in left])
        left = [each for each in left if tied(each.steps, least)]
    return left[0]
