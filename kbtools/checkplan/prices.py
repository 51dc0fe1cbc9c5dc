"""What the steps of a plan cost, given what is open already."""

from __future__ import annotations

from kbtools.checkplan.table import Table


class Prices:
    """Money and minutes of the steps of one table. Minutes of access jobs are added up once for each set of them."""

    __slots__ = ("_opening", "table")

    def __init__(self, table: Table) -> None:
        self.table = table
        self._opening: dict[int, float] = {0: 0.0}

    def opening(self, jobs: int) -> float:
        """Minutes that these access jobs take together."""
        found = self._opening.get(jobs)
        if found is None:
            found = self._opening[jobs] = self.table.opening_minutes(jobs)
        return found

    def check_minutes(self, place: int, opened: int) -> float:
        """The owner's minutes for a check, opening what is not open yet."""
        check = self.table.checks[place]
        return check.minutes + self.opening(check.access & ~(opened & check.keeps))

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
