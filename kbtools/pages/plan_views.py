"""The check plan as a fault page shows it, for an owner who says nothing: its steps in order, and what it costs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from kbtools.checkplan import Plan, Step
from kbtools.checkplan.problem import CheckWork, Problem
from kbtools.index.access import in_order_of_work
from kbtools.model.case import UNLISTED
from kbtools.model.money import show_about
from kbtools.pages.drawing import lengths
from kbtools.pages.views import Anchor
from kbtools.wording.plan import WORDS, differ, minutes_words, money_words, no_difference, reach_words, say

DEEPEST = 3
"""So many steps are told below the result of a check; the page's script goes on from there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CostView:
    """An expected cost as a bar."""

    name: str
    """What costs so much."""
    amount: str
    """In words."""
    length: str
    """Of its bar, 0 to 100."""
    ours: bool
    """It is the plan's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Then:
    """What follows a result."""

    it_is: str | None
    """Names the cause, where the result alone does not."""
    to: Anchor
    """The words of a link, and where it leads; without an id they are no link."""
    rest: str
    """Cost and time."""
    note: str | None
    """What else must be known."""
    after: tuple[tuple[str, Then], ...] = ()
    """What may come out of it, in words, and what follows that."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StepView:
    """A step of the main line, which goes on while results are good."""

    kind: str
    """`check`, `trial_fix`, `fix` or `hand_over`."""
    check: str | None
    """Id of the check; its card says what to do."""
    reach: str
    """How many get there."""
    minutes: str
    """The owner's own time, opening included."""
    opened: tuple[str, ...]
    """Names of what has to be opened now."""
    already: tuple[str, ...]
    """Names of what the check takes and is open."""
    outcomes: Mapping[str, Then]
    """By name of the result: what follows. Only those that can come out."""
    then: Then | None
    """Of any other step than a check: what to do."""
    left: tuple[str, ...]
    """Of the last step, unless it is a fix: titles of the causes that are still possible."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanView:
    """The whole plan."""

    steps: tuple[StepView, ...]
    """The main line."""
    costs: tuple[CostView, ...]
    """Of the plan, of going after the likeliest first, of handing over at once; of the plan alone where a mistake can
    hurt somebody."""
    drawn: bool
    """They differ by a tenth and more, so that bars show something."""
    saving: str | None
    """By how much it beats handing over at once; None where it does not, or a mistake can hurt somebody."""
    no_difference: bool
    """It saves less than a tenth against going after the likeliest first."""
    bound: str | None
    """Where it is not the cheapest of all plans: that, and what any costs at least."""
    transport: bool
    """Getting the bike to the workshop is counted in."""
    hour: str
    """What an hour of the owner's time counts for."""


def check_order(plan: Plan | None, all_checks: Sequence[str]) -> tuple[str, ...]:
    """The checks in the order in which the page has them: the main line, what branches take, the others."""
    line = plan.steps if plan is not None else ()
    main = [step.id for step in line if step.kind == "check"]
    return tuple(dict.fromkeys([each for each in (*main, *_checks(line), *all_checks) if each is not None]))


def _checks(steps: Sequence[Step]) -> Iterator[str | None]:
    for step in steps:
        if step.kind == "check":
            yield step.id
            for following in step.outcomes.values():
                yield from _checks(following)


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """What a plan's ids are called on the page."""

    causes: Mapping[str, str]
    """Titles, `unlisted` among them."""
    checks: Mapping[str, Anchor]
    """Their cards."""
    access: Mapping[str, str]
    """Names of access jobs."""


def plan_view(plan: Plan, problem: Problem, names: Names, *, critical: bool = False) -> PlanView:
    """The plan in words. It is one without results, so that nothing contradicts.

    Of `critical` faults nothing is compared with the plan's cost: nobody shall look for a saving there.
    """
    teller = _Teller(problem, names)
    expected, first, over = plan.expected_cost or 0.0, plan.likeliest_first or 0.0, plan.hand_over or 0.0
    told = (("cost_plan", expected), ("cost_likeliest_first", first), ("cost_hand_over", over))[
        : 1 if critical else None
    ]
    saving = over - expected
    return PlanView(
        steps=tuple(teller.main_line(plan.steps)),
        costs=tuple(
            CostView(name=WORDS[name], amount=money_words(cost, plan.currency), length=length, ours=name == "cost_plan")
            for (name, cost), length in zip(told, lengths([cost for _, cost in told]), strict=True)
        ),
        drawn=differ([cost for _, cost in told]),
        saving=money_words(saving, plan.currency) if round(saving) > 0 and not critical else None,
        no_difference=no_difference(expected, first) and not critical,
        bound=None if plan.at_least is None else say("not_exact", money=money_words(plan.at_least, plan.currency)),
        transport=problem.transport > 0,
        hour=show_about(problem.own_time_value, plan.currency),
    )


class _Teller:
    """Puts steps into words."""

    def __init__(self, problem: Problem, names: Names) -> None:
        self._currency = problem.currency
        self._names = names
        self._checks = {check.id: check for check in problem.checks}
        self._access = {job.id: job.needs for job in problem.access}
        self._possible = [*(fix.id for fix in problem.fixes), UNLISTED]

    def main_line(self, steps: Sequence[Step]) -> Iterator[StepView]:
        left = list(self._possible)
        for place, step in enumerate(steps):
            check = self._checks.get(step.id or "") if step.kind == "check" else None
            takes = in_order_of_work(check.access, self._access) if check is not None else ()
            yield StepView(
                kind=step.kind,
                check=check.id if check is not None else None,
                reach=WORDS["start"] if place == 0 else reach_words(step.reach),
                minutes=minutes_words(step.minutes),
                opened=self._named(step.access),
                already=self._named([job for job in takes if job not in step.access]),
                outcomes=self._outcomes(step, check) if check is not None else {},
                then=self._then(step, ()) if check is None else None,
                left=tuple(self._names.causes[each] for each in left) if step.kind == "hand_over" else (),
            )
            gone: set[str] = set()
            if check is not None and check.finds == 1:
                gone = {cause for _, causes in check.outcomes for cause in causes}
            elif step.kind == "trial_fix":
                gone = {step.id or ""}
            left = [each for each in left if each not in gone]

    def _outcomes(self, step: Step, check: CheckWork) -> dict[str, Then]:
        """What follows each result. One that points to a single cause has named it already."""
        pointed = dict(check.outcomes)
        found = {}
        for name, following in step.outcomes.items():
            if following:
                then = self._after(following, DEEPEST)
                found[name] = replace(then, it_is=None) if len(pointed[name]) == 1 else then
        return found

    def _after(self, steps: Sequence[Step], depth: int) -> Then:
        """What follows a result: the first of the steps, and what follows that, as deep as is told."""
        step, rest = steps[0], steps[1:]
        if depth == 1 or step.kind not in {"check", "trial_fix"}:
            return self._then(step, ())
        after = [
            (WORDS[name], self._after(following, depth - 1)) for name, following in step.outcomes.items() if following
        ]
        if rest:
            good = WORDS["good"] if step.kind == "check" else WORDS["no_help"]
            after.append((good, self._after(rest, depth - 1)))
        return self._then(step, after)

    def _then(self, step: Step, after: Sequence[tuple[str, Then]]) -> Then:
        money, minutes = show_about(step.cost, self._currency), minutes_words(step.minutes)
        cause = self._names.causes.get(step.id or "", "")
        if step.kind == "check":
            card = self._names.checks[step.id or ""]
            to = Anchor(id=card.id, title=say("check", check=card.title))
            return Then(it_is=None, to=to, rest=say("check_rest", minutes=minutes), note=None, after=tuple(after))
        if step.kind == "hand_over":
            to = Anchor(id="", title=WORDS["hand_over"])
            return Then(it_is=None, to=to, rest=say("hand_over_rest", money=money), note=None, after=())
        name = "trial_fix" if step.kind == "trial_fix" else f"fix_{step.where or 'workshop'}"
        return Then(
            it_is=None if step.kind == "trial_fix" else say("it_is", cause=cause),
            to=Anchor(id=f"fix-cause-{step.id}", title=say(name, cause=cause)),
            rest=say(f"{name}_rest", money=money, minutes=minutes),
            note=WORDS["inferred"] if step.inferred else None,
            after=tuple(after),
        )

    def _named(self, jobs: Sequence[str]) -> tuple[str, ...]:
        return tuple(self._names.access[job] for job in jobs if job in self._names.access)
