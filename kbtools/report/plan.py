"""A plan for the terminal: what it usually is, what it costs, and the steps with all that one must know at each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from kbtools.checkplan import Obstacle, Owner, Plan, Step, obstacles
from kbtools.checkplan.beside import (
    FreeWork,
    Word,
    bad_before_riding,
    before_riding,
    beside_of,
    may_be_free,
    ride_advice,
    second_faults,
)
from kbtools.checkplan.problem import Problem
from kbtools.evidence import Share, cases_words, second_causes, sureness
from kbtools.index.access import access_jobs
from kbtools.index.answers import Index
from kbtools.index.cautions import cautions_of_check, cautions_of_fault, cautions_of_fix, cautions_of_look
from kbtools.index.checks import first_looks, good_on
from kbtools.index.safety import critical_system
from kbtools.model.case import UNLISTED
from kbtools.model.catalogue import Caution
from kbtools.model.check import Check
from kbtools.model.fault import Cause, Fault
from kbtools.model.money import show_number, show_range
from kbtools.report.lines import as_text, wrapped
from kbtools.wording.labels import BIKE, RIDE, SKILL, count_of, judged, limits, verdict
from kbtools.wording.plan import WORDS, money_words, no_difference, say

_NAMES = {"bad": "bad", "low": "too low", "high": "too high"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a plan was asked for."""

    problem: Problem
    """What it was reckoned with."""
    owner: Owner
    """For whom."""
    codes: Sequence[Word] = ()
    """Advice of the codes that were given."""


def render(plan: Plan, fault: Fault, asked: Asked, index: Index) -> str:
    """The plan in words. Whatever an author wrote, nothing in it can control the terminal."""
    return as_text(_OneFault(plan, fault, asked, index).lines())


class PlanText:
    """What the text of any plan has: money, steps, what comes before riding, what is out of reach."""

    def __init__(self, plan: Plan, asked: Asked, index: Index, free: Sequence[FreeWork]) -> None:
        self.plan, self.index = plan, index
        self.problem, self.owner, self.codes = asked.problem, asked.owner, asked.codes
        self.base = index.base
        self.free = free
        self.checks: dict[str, tuple[Fault, Check]] = {}
        """By the ids of the plan, each with its entry."""
        self.causes: dict[str, tuple[Fault, Cause]] = {}
        """Likewise."""
        self.told: set[str] = set()
        """Cautions that stand above already."""
        self.common: frozenset[str] = frozenset()
        """Cautions of whatever is done here."""

    def _all_after_shares(self) -> Iterator[str]:
        if self.plan.expected_cost is None:
            yield from wrapped(
                "These results contradict each other: no cause that the entry knows fits all of them. Look at the"
                " last one again, or hand the bike over.",
                "",
            )
            yield from self._before_riding()
            return
        yield from self._free()
        yield from self._money()
        yield ""
        yield from self._look_first()
        yield from self._steps(self.plan.steps, "", numbered=True)
        yield from self._before_riding()
        yield from self._obstacles()

    def _because(self, word: Word) -> str:
        """Whose advice it is, where it is not a fault's."""
        kind, _, name = word.source.partition(":")
        given = {"cause": f"With {self._name(name)}: ", "code": f"With {name}: ", "check": f"{name} was not good: "}
        return given.get(kind, "")

    def _stop_signs(self, faults: Iterable[Fault]) -> Iterator[str]:
        """What ends the ride, each sign once. Signs always stay: no result makes them milder."""
        advices = [fault.ride_advice for fault in faults if fault.ride_advice is not None]
        signs = dict.fromkeys(sign for advice in advices for sign in advice.stop_if)
        if signs:
            yield "Stop at once if:"
        for sign in signs:
            yield from wrapped(f"- {sign}", "  ", "    ")

    def _free(self) -> Iterator[str]:
        for work in self.free:
            causes = "; ".join(self._name(each) for each in work.covers)
            yield from wrapped(f"It may be free: {work.kind} {work.source} ({causes}). {WORDS['may_be_free']}", "")

    def _before_riding(self) -> Iterator[str]:
        for second, causes in second_faults(self.problem, self.owner).items():
            names = "; ".join(self._name(each) for each in causes)
            yield ""
            yield from wrapped(f"{WORDS['second_fault']} {second}: {names}.", "")
        left = before_riding(self.problem, self.owner)
        if left:
            yield ""
            yield f"{WORDS['before_riding']}:"
        for each in left:
            _, check = self.checks[each]
            workshop = f" {WORDS['workshop_before_riding']}" if check.skill == "workshop" else ""
            yield from wrapped(f"- {check.do or check.id} Good: {self._good(check)}{workshop}", "  ", "    ")

    def _look_first(self) -> Iterator[str]:
        """What comes before any plan of the systems. It is no part of the cost."""
        checks = first_looks(self.base, list(dict.fromkeys(fault.system for fault, _ in self.causes.values())))
        if not checks:
            return
        jobs = access_jobs((job for check in checks for job in check.access), self.base)
        minutes = sum(check.minutes or 0.0 for check in checks) + sum(job.minutes for job in jobs)
        yield f"Look at these first ({show_number(minutes)} minutes)"
        for check in checks:
            yield from wrapped(f"- {check.do or check.id} Good: {self._good(check)}", "  ", "    ")
            yield from self._cautions(cautions_of_look(self.base, check), "    ")
        yield ""

    def _good(self, check: Check) -> str:
        """What is good, on the named bike if there is one."""
        bike, reading = self.owner.bike, check.reading
        if reading is None:
            return check.expect or ""
        good = reading.good if bike is None else good_on(check, *bike)
        where = ", ".join(each for each in (reading.place, reading.when) if each)
        limits = "" if good is None else show_range(good)
        return f"{limits} {reading.unit or ''}" + (f" ({where})" if where else "")

    def _cautions(self, cautions: Iterable[Caution], indent: str) -> Iterator[str]:
        """Cautions where the hands are, each whole the first time; those of whatever is done here are not repeated."""
        for caution in cautions:
            if caution.id not in self.told:
                self.told.add(caution.id)
                always = " This holds for every step." if caution.id in self.common else ""
                yield from wrapped(f"! {caution.text}{always}", indent)
            elif caution.id not in self.common:
                opening = caution.text.split(". ")[0].rstrip(".")
                yield from wrapped(f"! As above: {opening}.", indent)

    def _money(self) -> Iterator[str]:
        plan = self.plan
        minutes = round(plan.minutes or 0)
        own = f", {count_of(minutes, 'minute')} of your own among it" if minutes else ""
        yield f"This plan is expected to cost {self._amount(plan.expected_cost or 0)}{own}."
        if plan.at_least is not None:
            yield from wrapped(say("not_exact", money=self._amount(plan.at_least)), "")
        if any(critical_system(self.base, fault) is not None for fault, _ in self.causes.values()):
            # Nobody shall look for a saving there.
            yield "A mistake here can hurt someone. If you are not sure of your work, leave it to a workshop."
            return
        yield (
            f"Handing over at once: {self._amount(plan.hand_over or 0)}."
            f" The likeliest first: {self._amount(plan.likeliest_first or 0)}."
        )
        if no_difference(plan.expected_cost or 0.0, plan.likeliest_first or 0.0):
            yield WORDS["no_difference"]

    def _amount(self, value: float) -> str:
        return money_words(value, self.plan.currency)

    def _name(self, cause: str) -> str:
        if cause == UNLISTED or cause not in self.causes:
            return "A cause not listed here"
        _, known = self.causes[cause]
        return known.summary or known.id

    # Steps

    def _steps(self, steps: Iterable[Step], indent: str, *, numbered: bool) -> Iterator[str]:
        for number, step in enumerate(steps, 1):
            sign = f"{number}. " if numbered else "- "
            inner = indent + " " * len(sign)
            if step.kind == "check" and step.id is not None:
                yield from self._check(step, *self.checks[step.id], sign, indent)
            elif step.kind == "hand_over":
                text = f"Hand the bike over to a workshop: expected {self._amount(step.cost)}."
                yield from wrapped(sign + text, indent, inner)
            elif step.id is not None:
                yield from self._fix(step, *self.causes[step.id], sign, indent)

    def _check(self, step: Step, fault: Fault, check: Check, sign: str, indent: str) -> Iterator[str]:
        inner = indent + " " * len(sign)
        yield from wrapped(sign + (check.do or check.id), indent, inner)
        for job in step.access:
            known = self.base.access[job]
            where = f" ({known.where})" if known.where else ""
            yield from wrapped(f"First: {known.name}{where}, {show_number(known.minutes)} minutes.", inner)
        tools = [self.base.tools[tool].name for tool in check.tools if tool in self.base.tools]
        speed = f" at {check.speed.text}" if check.speed is not None else ""
        facts = [BIKE[check.bike] + speed, f"{show_number(check.minutes or 0)} minutes", *tools]
        if check.cost:
            facts.append(self._amount(check.cost))
        yield from wrapped("; ".join(facts) + f". Counts for {self._amount(step.cost)}.", inner)
        yield from self._cautions(cautions_of_check(self.base, fault, check), inner)
        yield from wrapped(f"Good: {self._good(check)}", inner)
        for outcome, following in step.outcomes.items():
            if following:
                yield f"{inner}If it is {_NAMES[outcome]}:"
                yield from self._steps(following, inner + "  ", numbered=False)
        yield f"{inner}If it is good: go on."

    def _fix(self, step: Step, fault: Fault, cause: Cause, sign: str, indent: str) -> Iterator[str]:
        inner = indent + " " * len(sign)
        fix = cause.fix
        name = self._name(step.id or "")
        if step.kind == "trial_fix":
            yield from wrapped(f"{sign}Try without proof: {name}, {self._amount(step.cost)}.", indent, inner)
        else:
            yield from wrapped(f"{sign}{name}: {self._where(step)}.", indent, inner)
        if step.inferred:
            yield from wrapped("No check shows this cause itself, it is what is left: have it confirmed first.", inner)
        if fix is None:
            return
        if fix.summary:
            yield from wrapped(fix.summary, inner)
        if step.where not in {"workshop", "maker"}:
            yield from self._cautions(cautions_of_fix(self.base, fault, cause), inner)
        if fix.verify is not None:
            yield from wrapped(f"Then verify: {fix.verify.do or ''} Good: {fix.verify.expect or ''}", inner)
        if cause.often_with:
            names = "; ".join(each.summary or each.id for each in fault.causes if each.id in cause.often_with)
            yield from wrapped(f"Often found with it: {names}.", inner)

    def _where(self, step: Step) -> str:
        """Where a cause is mended, and what that costs: nothing perhaps, and that first."""
        money = self._amount(step.cost)
        if step.where == "maker":
            return f"the maker pays, {money} for getting it there" if step.cost else "the maker pays"
        where = "mend it at home" if step.where == "home" else "name it to a workshop"
        if any(step.id in work.covers for work in self.free):
            said = say("free_else", money=f"{where}, {money}")
            return f"{said[0].lower()}{said[1:].rstrip('.')}"
        return f"{where}, {money}"

    def _obstacles(self) -> Iterator[str]:
        found = obstacles(self.problem, self.owner)
        if found:
            yield ""
            yield "Out of your reach for now"
        for each in found:
            name = each.id if each.kind == "check" else f"mending: {self._name(each.id)}"
            yield from wrapped(f"- {name} ({', '.join(self._reasons(each))})", "  ", "    ")

    def _reasons(self, each: Obstacle) -> Iterator[str]:
        if each.absent:
            yield "the fault is not there now"
        if each.skill:
            work = self.checks[each.id][1] if each.kind == "check" else self.causes[each.id][1].fix
            level = (work.skill if work is not None else None) or "workshop"
            yield "workshop only" if level == "workshop" else f"takes {SKILL[level].lower()}"
        if each.tools:
            yield "takes " + ", ".join(
                self.base.tools[tool].name if tool in self.base.tools else tool for tool in each.tools
            )
        if each.access:
            jobs = (self.base.access[job].name if job in self.base.access else job for job in each.access)
            yield f"needs {', '.join(jobs)}"


class _OneFault(PlanText):
    """The plan of one fault."""

    def __init__(self, plan: Plan, fault: Fault, asked: Asked, index: Index) -> None:
        self.fault = fault
        self.beside = beside_of(fault, index)
        super().__init__(plan, asked, index, may_be_free(self.beside, asked.owner.bike))
        self.checks = {check.id: (fault, check) for check in fault.checks}
        self.causes = {cause.id: (fault, cause) for cause in fault.causes}
        self.common = frozenset(each.id for each in cautions_of_fault(self.base, fault))

    def lines(self) -> Iterator[str]:
        yield self.fault.title
        yield from self._ride()
        yield ""
        yield "What it usually is"
        yield from self._shares()
        yield ""
        yield from self._all_after_shares()

    def _ride(self) -> Iterator[str]:
        advice = self.fault.ride_advice
        bad = bad_before_riding(self.problem, self.owner)
        word = ride_advice(self.beside, self.plan.chances, self.codes, bad)
        answer = verdict(word.level, self.fault.does_not_start)
        yield from wrapped(f"May I ride it? {self._because(word)}{answer} {word.why or ''}", "")
        said = limits(advice) if advice is not None else None
        if said is not None:
            yield said
        for each in self.fault.codes if not self.codes else ():
            own = each.ride_advice
            if own is not None and own.level != word.level:
                yield from wrapped(f"With {each.read.text}: {RIDE[own.level].answer} {own.why or ''}", "")
        yield from self._stop_signs([self.fault])

    def _shares(self) -> Iterator[str]:
        counted = sum(share.cases for share in self.plan.causes)
        for share in self.plan.causes:
            yield from wrapped(f"- {self._name(share.id)}: {self._how_often(share, counted)}", "  ", "    ")
        if sureness(counted) == "judgement":
            yield "  No case is counted yet: curator's judgement only."
        else:
            yield f"  {WORDS['members']}: {count_of(counted, 'case')}."
        seconds = second_causes(self.fault, self.index)
        if seconds.cases:
            which = "; ".join(f"{self._name(cause)} ({number})" for cause, number in seconds.which)
            told = say("second_cause", k=str(seconds.cases), n=count_of(seconds.counted, "case"))
            yield from wrapped(f"{told}: {which}.", "  ")

    def _how_often(self, share: Share, counted: int) -> str:
        numbers = f"{share.mean:.0%} ({share.low:.0%} to {share.high:.0%})".replace("%", " %")
        words = judged(share.mean).lower()
        if sureness(counted) == "judgement":
            return f"{words}, {numbers}"
        cases = cases_words(share.cases, counted, share.yours if self.owner.bike is not None else None)
        return f"{words}, {numbers}; {cases}" if sureness(counted) == "few" else f"{numbers}, {words}; {cases}"
