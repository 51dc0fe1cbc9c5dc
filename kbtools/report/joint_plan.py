"""A plan for several faults in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from kbtools.checkplan import Plan
from kbtools.checkplan.beside import bad_before_riding
from kbtools.checkplan.joint import Joint
from kbtools.checkplan.joint_beside import joint_may_be_free, joint_ride_advice
from kbtools.evidence import cases_words
from kbtools.index.answers import Index
from kbtools.index.cautions import cautions_of_fault
from kbtools.model.case import UNLISTED
from kbtools.model.fault import Fault
from kbtools.report.lines import as_text, wrapped
from kbtools.report.plan import Asked, PlanText
from kbtools.wording.labels import count_of, judged, verdict
from kbtools.wording.plan import READ_AGAIN, WORDS


@dataclass(frozen=True, slots=True, kw_only=True)
class JointAsked(Asked):
    """What a plan for several faults was asked for; its problem is that of the joint plan."""

    joint: Joint
    """What it was reckoned with."""
    faults: Sequence[Fault]
    """The entries, in file order."""
    given: Sequence[str]
    """The codes that it is for, as written; empty where the faults were named."""
    unexplained: Sequence[str]
    """Those of them that none of the faults sets by itself."""


def render_joint(plan: Plan, asked: JointAsked, index: Index) -> str:
    """The plan in words, for the terminal."""
    return as_text(_SeveralFaults(plan, asked, index).lines())


class _SeveralFaults(PlanText):
    """The plan of several faults."""

    def __init__(self, plan: Plan, asked: JointAsked, index: Index) -> None:
        joint, faults = asked.joint, asked.faults
        super().__init__(plan, asked, index, joint_may_be_free(joint, asked.owner.bike))
        self.joint, self.asked = joint, asked
        self.entries = {fault.id: fault for fault in faults}
        checks = {(fault.id, each.id): (fault, each) for fault in faults for each in fault.checks}
        causes = {(fault.id, each.id): (fault, each) for fault in faults for each in fault.causes}
        self.checks = {name: checks[uses[0]] for name, uses in joint.uses.items()}
        # A joint cause is called by the one whose fix is taken.
        self.causes = {name: causes[_member(name)] for name in joint.members}
        of_each = [{each.id for each in cautions_of_fault(self.base, fault)} for fault in faults]
        self.common = frozenset(set.intersection(*of_each))

    def lines(self) -> Iterator[str]:
        yield from wrapped("One plan for: " + "; ".join(fault.title for fault in self.entries.values()), "")
        yield from self._ride()
        if self.asked.unexplained:
            yield from wrapped(f"None of these faults sets {', '.join(self.asked.unexplained)} by itself.", "")
        yield ""
        yield "What it usually is"
        yield from self._faults()
        yield from self._shares()
        yield ""
        yield from self._all_after_shares()
        if len(self.asked.given) > 1:
            yield ""
            yield from wrapped(READ_AGAIN, "")

    def _ride(self) -> Iterator[str]:
        bad = bad_before_riding(self.problem, self.owner)
        word = joint_ride_advice(self.joint, self.plan.chances, self.codes, bad)
        starts = [fault.does_not_start for fault in self.entries.values()]
        # Which of them it is nobody knows yet, so that it may fail to start is all that can be said.
        starting = "sometimes" if any(starts) and set(starts) != {"yes"} else starts[0]
        answer = verdict(word.level, starting)
        yield from wrapped(f"May I ride it? {self._because(word)}{answer} {word.why or ''}", "")
        yield from self._stop_signs(self.entries.values())

    def _faults(self) -> Iterator[str]:
        counted = sum(each.cases for each in self.joint.faults)
        for each in self.joint.faults:
            title = "A fault not described here" if each.id == UNLISTED else self.entries[each.id].title
            numbers = f"{each.mean:.0%} ({each.low:.0%} to {each.high:.0%})".replace("%", " %")
            said = f"{title}: {judged(each.mean).lower()}, {numbers}; {cases_words(each.cases, counted)}"
            yield from wrapped(f"- {said}", "  ", "    ")
        if counted:
            yield f"  {WORDS['members']}: {count_of(counted, 'case')}."

    def _shares(self) -> Iterator[str]:
        yield "Over all of them"
        for each in self.joint.causes:
            share = f"{each.mean:.0%}".replace("%", " %")
            yield from wrapped(f"- {self._name(each.id)}: {judged(each.mean).lower()}, {share}", "  ", "    ")


def _member(name: str) -> tuple[str, str]:
    fault, _, cause = name.partition("/")
    return fault, cause
