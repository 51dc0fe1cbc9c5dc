"""What a plan costs the bike that has one cause and no other: the same steps, weighed by no share."""

from __future__ import annotations

from collections.abc import Callable

from kbtools.checkplan.search import HAND_OVER, Search
from kbtools.checkplan.table import State, Table

Chooses = Callable[[int, int, int], int]
"""Says what to do in a state, as the choice in `Solved` does."""


def cost_with(cause: int, chooses: Chooses, search: Search, start: State) -> float:
    """What a plan is expected to cost from a state on where this cause is present; what checks show is chance still.

    Args:
        cause: its place among the causes of the table, one that is possible at the start.
        chooses: the plan: what it does in each state.
        search: of the same table; it knows what steps cost.
        start: where it begins.
    """
    return _Walk(cause, chooses, search).of(start)


def handed_over(cause: int, table: Table) -> float:
    """What handing over at once costs a bike with this cause."""
    listed = cause < len(table.fixes)
    return table.hand_over + (table.fixes[cause].workshop if listed else table.unlisted_repair)


class _Walk:
    __slots__ = ("_cause", "_chooses", "_known", "_search")

    def __init__(self, cause: int, chooses: Chooses, search: Search) -> None:
        self._cause, self._chooses, self._search = cause, chooses, search
        self._known: dict[State, float] = {}

    def of(self, state: State) -> float:
        found = self._known.get(state)
        if found is None:
            found = self._known[state] = self._after(self._chooses(*state), state)
        return found

    def _after(self, choice: int, state: State) -> float:
        search, cause = self._search, self._cause
        checks = search.table.checks
        possible, good, opened = state
        if choice == HAND_OVER:
            return handed_over(cause, search.table)
        if choice < 0:
            return search.end(cause, opened)[0]
        if choice < len(checks):
            return self._checked(choice, state)
        tried = choice - len(checks)
        paid = search.home_cost(tried, opened)
        return paid if tried == cause else paid + self.of((possible & ~(1 << tried), good, opened))

    def _checked(self, place: int, state: State) -> float:
        possible, good, opened = state
        check = self._search.table.checks[place]
        after = check.opened_after(opened)
        shown = next((each for each in check.sets if each >> self._cause & 1), 0)
        cost, missed = self._search.check_cost(place, opened), 1.0
        if shown:
            cost += check.finds * self.of((possible & shown, good, after))
            missed -= check.finds
        if missed > 0:
            cost += missed * self.of((*self._search.after_good(place, possible, good), after))
        return cost
