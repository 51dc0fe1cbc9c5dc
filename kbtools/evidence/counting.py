"""How many cases count for which cause of which fault; which ones do is `kbtools.index.cases.counted`.

A case whose state is `returned` counts against the fix of its cause.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from kbtools.index.answers import Index, ModelYear
from kbtools.index.cases import counted, counted_by_fault, followed_among
from kbtools.index.scopes import Scope, scope
from kbtools.model.case import UNLISTED, Case
from kbtools.model.catalogue import Club
from kbtools.model.fault import Cause, Fault
from kbtools.model.money import Distance
from kbtools.model.years import unbroken

Spans = Mapping[str, tuple[tuple[int, int], ...]]
"""Model id → runs of model years, first and last included."""

NOT_SAID: ModelYear = ("", 0)
"""Stands for the machine of a damaged case, which does not say what it was."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CauseCases:
    """A cause with what speaks for it before and after cases."""

    id: str
    """Of the cause."""
    component: str | None
    """Id of its component."""
    weight: float | None
    """The curator's weight; None: all causes of the fault weigh the same."""
    applies: Spans | None
    """The machines on which it exists; None: all that the fault concerns."""
    counted: Mapping[ModelYear, int]
    """Counted cases by machine."""
    returned: int = 0
    """Cases in which the fault came back after its fix."""

    def exists_on(self, bike: ModelYear | None) -> bool:
        """Whether it can be the cause on that machine; on an unnamed one every cause can."""
        if bike is None or self.applies is None:
            return True
        return any(first <= bike[1] <= last for first, last in self.applies.get(bike[0], ()))

    @property
    def cases(self) -> int:
        """How many cases count for it."""
        return sum(self.counted.values())


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """All that is known about how often each cause of a fault is the one."""

    prior_strength: float
    """As many cases does the curators' judgement weigh; above 0."""
    unlisted_share: float
    """Prior share of a cause that is not listed; between 0 and 1."""
    causes: tuple[CauseCases, ...]
    """In file order."""
    unlisted: Mapping[ModelYear, int]
    """Counted cases by machine whose cause the fault does not list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Odometer:
    """One mark of a strip plot of odometer readings."""

    distance: Distance
    """In the club's unit."""
    case: str
    """Id of the case."""
    cause: str | None
    """Id of the cause found, `unlisted`, or None while nobody knows."""
    counted: bool
    """Whether the case counts."""


def evidence_of(fault: Fault, index: Index, club: Club) -> Evidence:
    """Everything that speaks for each cause of a fault of the index's base, from its weights and its cases."""
    counting = counted_by_fault(index.base).get(fault.id, {})
    return _of_cases(fault, index, club, index.cases_by_fault.get(fault.id, ()), counting)


def evidence_by(cases: Sequence[Case], fault: Fault, index: Index, club: Club) -> Evidence:
    """The same as it was when only these cases of the fault had been seen: none of them followed by a later one."""
    return _of_cases(fault, index, club, cases, counted(fault, cases, index.base, followed_among(cases)))


def _of_cases(
    fault: Fault, index: Index, club: Club, cases: Sequence[Case], counting: Mapping[str, Sequence[Case]]
) -> Evidence:
    returned = Counter(case.outcome.cause for case in cases if case.outcome.state == "returned")
    weighted = all(cause.share is not None for cause in fault.causes)
    return Evidence(
        prior_strength=club.prior_strength,
        unlisted_share=club.unlisted_share,
        causes=tuple(
            CauseCases(
                id=cause.id,
                component=cause.component,
                weight=cause.share if weighted else None,
                applies=_spans(cause, index),
                counted=_by_machine(counting.get(cause.id, ())),
                returned=returned[cause.id],
            )
            for cause in fault.causes
        ),
        unlisted=_by_machine(counting.get(UNLISTED, ())),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondCauses:
    """How often something else was broken as well."""

    cases: int
    """Counted cases with a second cause."""
    counted: int
    """All counted cases."""
    which: tuple[tuple[str, int], ...]
    """Id of a cause of the fault, and in how many of them it was the second; the most often first."""


def second_causes(fault: Fault, index: Index) -> SecondCauses:
    """The second causes of the counted cases of a fault."""
    groups = counted_by_fault(index.base).get(fault.id, {})
    cases = [case for group in groups.values() for case in group]
    known = {cause.id for cause in fault.causes}
    seconds = [{each for each in case.outcome.also if each in known} for case in cases]
    which = Counter(each for second in seconds for each in sorted(second))
    return SecondCauses(
        cases=sum(bool(second) for second in seconds), counted=len(cases), which=tuple(which.most_common())
    )


def odometers(fault: Fault, index: Index, club: Club) -> tuple[Odometer, ...]:
    """The odometer readings of all cases of a fault, rising: the marks of its strip plot."""
    cases = index.cases_by_fault.get(fault.id, ())
    counting = {case.id for group in counted_by_fault(index.base).get(fault.id, {}).values() for case in group}
    marks = [
        Odometer(
            distance=case.vehicle.odometer.shown_in(club.distance_unit),
            case=case.id,
            cause=case.outcome.cause,
            counted=case.id in counting,
        )
        for case in cases
        if case.vehicle.odometer is not None
    ]
    return tuple(sorted(marks, key=lambda mark: (mark.distance.value, mark.case)))


def _by_machine(cases: Sequence[Case]) -> Mapping[ModelYear, int]:
    return Counter(_machine(case) for case in cases)


def _machine(case: Case) -> ModelYear:
    model, year = case.vehicle.model, case.vehicle.year
    return NOT_SAID if model is None or year is None else (model, year)


def _spans(cause: Cause, index: Index) -> Spans | None:
    if not cause.applies_to:
        return None
    return runs(scope(cause.applies_to, index.base.models, index.years))


def runs(concerned: Scope) -> Spans:
    """The model years of a scope as runs without gaps."""
    return {model: tuple(unbroken(sorted(years))) for model, years in concerned.items()}
