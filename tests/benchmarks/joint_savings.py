"""What one plan for a code saves beside opening the page of each of its faults.

`python -m tests.benchmarks.joint_savings` prints a table.

For each code of the demo with several faults, on any bike and on each model year that can have them (years in which
nothing differs stand in one line), for an owner of whom nothing is known. "Page by page": the faults in the order of
their cases with the code; the plan of the first as its page has it; where that ends without a cause that the joint
plan knows of, hand over there, or go on with the page of the next. The cheapest of all places to stop is taken, so
that it is the best of that way. All is reckoned over the joint plan's causes and shares: a page's check of one fault
says nothing about another's causes, and a shared check is not done twice.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from kbtools.checkplan import Owner, Step, plan_of
from kbtools.checkplan.joint import Joint, Part
from kbtools.checkplan.parts import joint_plan
from kbtools.checkplan.search import Search
from kbtools.checkplan.table import State, start_of, table_of
from kbtools.edges.clock import today
from kbtools.edges.folder import load
from kbtools.index.answers import Index, ModelYear
from kbtools.index.build import build_index
from kbtools.index.together import GivenCode, faults_of_codes, share_a_machine


class PageByPage:
    """Follows one page after the other, over the causes of all of them."""

    def __init__(self, joint: Joint, owner: Owner, order: Sequence[Part]) -> None:
        self.joint, self.order = joint, order
        self.search = Search(table_of(joint.problem, owner))
        self.checks = {each.id: place for place, each in enumerate(self.search.table.checks)}
        self.check_name = {use: name for name, uses in joint.uses.items() for use in uses}
        self.cause_name = {each: name for name, members in joint.members.items() for each in members}
        self.plans = [plan_of(part.problem, owner).steps for part in order]

    def cost(self) -> float:
        """The least of all ways to stop, each page followed to its end."""
        start = start_of(self.search.table, {})
        whole = self.search.weighed(*start[:2])[0]
        return min(self.follow(0, self.plans[0], start, pages) for pages in range(1, len(self.order) + 1)) / whole

    def follow(self, page: int, steps: Sequence[Step], state: State, pages: int) -> float:
        """What is paid from a step of a page on, weighted."""
        possible, good, opened = state
        if possible & (possible - 1) == 0:
            return self.search.known(*state)[0] if possible else 0.0
        if not steps or steps[0].kind in {"hand_over", "fix"}:
            return self._end_of_page(page, steps, state, pages)
        step, rest = steps[0], steps[1:]
        weight = self.search.weighed(possible, good)[0]
        fault = self.order[page].problem.fault
        if step.kind == "trial_fix":
            cause = self.search.table.causes.index(self.cause_name[fault, step.id or ""])
            if not possible >> cause & 1:
                return self.follow(page, rest, state, pages)
            paid = weight * self.search.home_cost(cause, opened)
            return paid + self.follow(page, rest, (possible & ~(1 << cause), good, opened), pages)
        place = self.checks[self.check_name[fault, step.id or ""]]
        row = self.search.table.checks[place]
        if good >> place & 1 or not row.union & possible:
            return self.follow(page, rest, state, pages)
        total = weight * self.search.check_cost(place, opened)
        after = row.opened_after(opened)
        for name, each in zip(row.names, row.sets, strict=True):
            if each & possible:
                then = (possible & each, good, after)
                total += row.finds * self.follow(page, step.outcomes.get(name, ()), then, pages)
        return total + self.follow(page, rest, (*self.search.after_good(place, possible, good), after), pages)

    def _end_of_page(self, page: int, steps: Sequence[Step], state: State, pages: int) -> float:
        """The page names a cause, or hands over; the owner does that, or opens the next page."""
        if page + 1 < pages:
            return self.follow(page + 1, self.plans[page + 1], state, pages)
        return self.search.weighed(state[0], state[1])[1]


Row = tuple[str, str, int, float, float, float]
"""Code; bike; number of faults; cost by one plan, page by page, and handed over."""


def rows(index: Index) -> Iterator[Row]:
    per_unit = {each.id for each in index.club.code_formats if each.per_unit}
    for code, uses in sorted(index.uses_by_code.items(), key=lambda each: each[0].text):
        if code.format not in per_unit:
            yield from _rows([GivenCode(code=code, unit=None)], "any", [None], index)
        for unit in sorted({use.row.unit for use in uses} or {None}, key=str):
            given = [GivenCode(code=code, unit=unit)]
            for model, years in index.years.items():
                yield from _rows(given, model, [(model, year) for year in years], index)


def _rows(given: Sequence[GivenCode], name: str, bikes: Sequence[ModelYear | None], index: Index) -> Iterator[Row]:
    before: tuple[float, ...] = ()
    for bike in bikes:
        faults = faults_of_codes(given, bike, index)
        if len(faults) < 2 or (bike is None and not share_a_machine(faults, index)):
            continue
        joint, owner = joint_plan(faults, given, bike, index), Owner(bike=bike)
        cases = {each.id: each.cases for each in joint.faults}
        order = sorted(joint.parts, key=lambda part: -cases[part.problem.fault])
        plan = plan_of(joint.problem, owner)
        figures = (plan.expected_cost or 0.0, PageByPage(joint, owner, order).cost(), plan.hand_over or 0.0)
        if before != figures:
            before = figures
            yield given[0].label, name if bike is None else f"{name} {bike[1]}", len(faults), *figures


def main() -> None:
    index = build_index(load(Path("kb")).base, today())
    print(f"{'code':<12} {'bike':<18} {'faults':>6} {'joint':>8} {'pages':>8} {'saves':>7} {'hand over':>10}")
    told = set()
    for code, bike, count, plan, pages, hand_over in rows(index):
        told.add(code)
        saved = f"{(pages - plan) / pages:.1%}"
        print(f"{code:<12} {bike:<18} {count:>6} {plan:>8.1f} {pages:>8.1f} {saved:>7} {hand_over:>10.1f}")
    several = {code.text for code, uses in index.uses_by_code.items() if len({use.fault.id for use in uses}) > 1}
    left = ", ".join(sorted(several - told))
    print(f"Of {len(several)} codes with several faults these lead to one at most, by control unit or root: {left}.")


if __name__ == "__main__":
    main()
