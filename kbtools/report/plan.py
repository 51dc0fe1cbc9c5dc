"""A plan for the terminal: what it usually is, what it costs, and the steps with all that one must know at each."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from kbtools.checkplan import Obstacle, Owner, Plan, Step, obstacles
from kbtools.checkplan.problem import Problem
from kbtools.evidence import Share, cases_words, sureness
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import UNLISTED
from kbtools.model.fault import Cause, Check, Fault
from kbtools.model.money import Range, show_money, show_number, show_range
from kbtools.text.terminal import shown
from kbtools.wording.labels import BIKE, RIDE, SKILL, count_of, judged

_WIDTH = 100
_SPACES = str.maketrans("\u00a0\u202f", "  ")
_NAMES = {"bad": "bad", "low": "too low", "high": "too high"}


def render(plan: Plan, fault: Fault, problem: Problem, owner: Owner, base: KnowledgeBase) -> str:
    """The plan in words. Whatever an author wrote, nothing in it can control the terminal."""
    lines = _Plan(plan, fault, problem, owner, base).lines()
    # Spaces that hold a figure and its unit together are for pages; a terminal takes plain ones.
    return "".join(f"{shown(line.translate(_SPACES))}\n" for line in lines)


class _Plan:
    """What all parts of the text need."""

    def __init__(self, plan: Plan, fault: Fault, problem: Problem, owner: Owner, base: KnowledgeBase) -> None:
        self.plan, self.fault, self.problem, self.owner, self.base = plan, fault, problem, owner, base
        self.checks = {check.id: check for check in fault.checks}
        self.causes = {cause.id: cause for cause in fault.causes}
        self.told: set[str] = set()
        """Cautions and verifying that stand above already."""

    def lines(self) -> Iterator[str]:
        yield self.fault.title
        yield from self._ride()
        for caution in self.fault.cautions:
            yield from self._caution(caution, "")
        yield ""
        yield "What it usually is"
        yield from self._shares()
        yield ""
        if self.plan.expected_cost is None:
            yield from _wrapped(
                "These results contradict each other: no cause that the entry knows fits all of them. Look at the"
                " last one again, or hand the bike over.",
                "",
            )
            return
        yield from self._money()
        yield ""
        yield from self._steps(self.plan.steps, "", numbered=True)
        yield from self._obstacles()

    def _ride(self) -> Iterator[str]:
        advice = self.fault.ride_advice
        words = RIDE[advice.level if advice is not None else None].answer
        yield from _wrapped(f"May I ride it? {words} {advice.why if advice is not None and advice.why else ''}", "")

    def _caution(self, caution: str, indent: str) -> Iterator[str]:
        """A caution where the hands are, in full the first time."""
        known = self.base.cautions.get(caution)
        if known is not None and caution not in self.told:
            self.told.add(caution)
            yield from _wrapped(f"! {known.text}", indent)
        elif known is not None:
            opening = known.text.split(". ")[0].rstrip(".")
            yield from _wrapped(f"! As above: {opening}.", indent)

    def _shares(self) -> Iterator[str]:
        counted = sum(share.cases for share in self.plan.causes)
        for share in self.plan.causes:
            yield from _wrapped(f"- {self._name(share.id)}: {self._how_often(share, counted)}", "  ", "    ")
        if sureness(counted) == "judgement":
            yield "  No case is counted yet: curator's judgement only."

    def _how_often(self, share: Share, counted: int) -> str:
        numbers = f"{share.mean:.0%} ({share.low:.0%} to {share.high:.0%})".replace("%", " %")
        words = judged(share.mean).lower()
        if sureness(counted) == "judgement":
            return f"{words}, {numbers}"
        cases = cases_words(share.cases, counted, share.yours if self.owner.bike is not None else None)
        return f"{words}, {numbers}; {cases}" if sureness(counted) == "few" else f"{numbers}, {words}; {cases}"

    def _money(self) -> Iterator[str]:
        plan = self.plan
        minutes = round(plan.minutes or 0)
        own = f", {count_of(minutes, 'minute')} of your own among it" if minutes else ""
        yield f"This plan is expected to cost {self._amount(plan.expected_cost or 0)}{own}."
        yield (
            f"Handing over at once: {self._amount(plan.hand_over or 0)}."
            f" The likeliest first: {self._amount(plan.likeliest_first or 0)}."
        )

    def _amount(self, value: float) -> str:
        rounded = float(round(value)) if value >= 10 else round(value, 1)
        return show_money(Range(low=rounded, high=rounded), self.plan.currency)

    def _name(self, cause: str) -> str:
        known = self.causes.get(cause)
        return "A cause not listed here" if cause == UNLISTED or known is None else known.summary or known.id

    # Steps

    def _steps(self, steps: Iterable[Step], indent: str, *, numbered: bool) -> Iterator[str]:
        for number, step in enumerate(steps, 1):
            sign = f"{number}. " if numbered else "- "
            inner = indent + " " * len(sign)
            if step.kind == "check" and step.id is not None:
                yield from self._check(step, self.checks[step.id], sign, indent)
            elif step.kind == "hand_over":
                text = f"Hand the bike over to a workshop: expected {self._amount(step.cost)}."
                yield from _wrapped(sign + text, indent, inner)
            elif step.id is not None:
                yield from self._fix(step, self.causes[step.id], sign, indent)

    def _check(self, step: Step, check: Check, sign: str, indent: str) -> Iterator[str]:
        inner = indent + " " * len(sign)
        yield from _wrapped(sign + (check.do or check.id), indent, inner)
        for job in step.access:
            known = self.base.access[job]
            yield f"{inner}First: {known.name}, {show_number(known.minutes)} minutes."
            for caution in known.cautions:
                yield from self._caution(caution, inner)
        tools = [self.base.tools[tool].name for tool in check.tools if tool in self.base.tools]
        facts = [BIKE[check.bike], f"{show_number(check.minutes or 0)} minutes", *tools]
        if check.cost:
            facts.append(self._amount(check.cost))
        yield from _wrapped("; ".join(facts) + f". Counts for {self._amount(step.cost)}.", inner)
        for caution in check.cautions:
            yield from self._caution(caution, inner)
        yield from _wrapped(f"Good: {_good(check)}", inner)
        for outcome, following in step.outcomes.items():
            if following:
                yield f"{inner}If it is {_NAMES[outcome]}:"
                yield from self._steps(following, inner + "  ", numbered=False)
        yield f"{inner}If it is good: go on."

    def _fix(self, step: Step, cause: Cause, sign: str, indent: str) -> Iterator[str]:
        inner = indent + " " * len(sign)
        fix = cause.fix
        name = self._name(cause.id)
        if step.kind == "trial_fix":
            yield from _wrapped(f"{sign}Try without proof: {name}, {self._amount(step.cost)}.", indent, inner)
        else:
            where = "mend it at home" if step.where == "home" else "name it to a workshop"
            yield from _wrapped(f"{sign}{name}: {where}, {self._amount(step.cost)}.", indent, inner)
        if step.inferred:
            yield from _wrapped("No check shows this cause itself, it is what is left: have it confirmed first.", inner)
        if fix is None:
            return
        if fix.summary:
            yield from _wrapped(fix.summary, inner)
        if step.where != "workshop":
            for caution in fix.cautions:
                yield from self._caution(caution, inner)
        if fix.verify is not None:
            yield from _wrapped(f"Then verify: {fix.verify.do or ''} Good: {fix.verify.expect or ''}", inner)
        if cause.often_with:
            names = "; ".join(self._name(each) for each in cause.often_with)
            yield from _wrapped(f"Often found with it: {names}.", inner)

    def _obstacles(self) -> Iterator[str]:
        found = obstacles(self.problem, self.owner)
        if found:
            yield ""
            yield "Out of your reach for now"
        for each in found:
            name = each.id if each.kind == "check" else f"mending: {self._name(each.id)}"
            yield from _wrapped(f"- {name} ({', '.join(self._reasons(each))})", "  ", "    ")

    def _reasons(self, each: Obstacle) -> Iterator[str]:
        if each.absent:
            yield "the fault is not there now"
        if each.skill:
            work = self.checks[each.id] if each.kind == "check" else self.causes[each.id].fix
            level = (work.skill if work is not None else None) or "workshop"
            yield "workshop only" if level == "workshop" else f"takes {SKILL[level].lower()}"
        if each.tools:
            yield "takes " + ", ".join(
                self.base.tools[tool].name if tool in self.base.tools else tool for tool in each.tools
            )
        if each.access:
            jobs = (self.base.access[job].name if job in self.base.access else job for job in each.access)
            yield f"needs {', '.join(jobs)}"


def _good(check: Check) -> str:
    reading = check.reading
    if reading is None:
        return check.expect or ""
    limits = show_range(reading.good) if reading.good is not None else ""
    where = ", ".join(each for each in (reading.place, reading.when) if each)
    return f"{limits} {reading.unit or ''}" + (f" ({where})" if where else "")


def _wrapped(text: str, indent: str, further: str | None = None) -> list[str]:
    """A paragraph within the width of a terminal; `further` begins its lines after the first."""
    return textwrap.wrap(
        " ".join(text.split()),
        _WIDTH,
        initial_indent=indent,
        subsequent_indent=indent if further is None else further,
        break_long_words=False,
        break_on_hyphens=False,
    )
