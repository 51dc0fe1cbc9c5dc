"""How likely the plan for a case's codes called its fault, by the cases that were seen before it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Mapping, Sequence

from kbtools.checkplan.parts import MOST_FAULTS
from kbtools.evidence import CauseCases, evidence_by
from kbtools.index.answers import Index, ModelYear
from kbtools.index.cases import counted, solved_without_fault
from kbtools.index.together import GivenCode, faults_of_codes, machine_of, root_rows, shows
from kbtools.model.case import UNLISTED, Case
from kbtools.model.codes import FaultCode, structure

Days = Sequence[int]
"""Days as ordinals, rising."""


class FaultShares:
    """The shares of faults by codes, with the cases before a day; what several cases ask is worked out once."""

    def __init__(self, index: Index) -> None:
        self._index = index
        self._faults: dict[tuple[tuple[GivenCode, ...], ModelYear | None], tuple[str, ...]] = {}
        self._causes: dict[str, Sequence[CauseCases]] = {}
        self._groups: dict[str, Mapping[str, Sequence[Case]]] = {}
        self._rooted: dict[tuple[str, GivenCode], bool] = {}
        self._days: dict[tuple[str, tuple[FaultCode, ...]], Mapping[str, Days]] = {}
        self._no_fault: dict[tuple[GivenCode, ...], Days] = {}
        self._no_fault_by_code = _by_code(solved_without_fault(index.base), index)

    def of(self, case: Case) -> float | None:
        """The share of a case's fault in the plan for its codes; None where it is not among their faults.

        None too where there is no such plan, of more than eight faults. A case does not say which control unit showed
        a code: any that is fitted on the bike may have.
        """
        own = self._index.renamed.get(case.fault or "", case.fault)
        given = tuple(dict.fromkeys(GivenCode(code=code, unit=None) for code in _codes(case)))
        bike, day = machine_of(case), case.seen
        if not given or day is None:
            return None
        faults = self._faults_of(given, bike)
        if own not in faults or len(faults) > MOST_FAULTS:
            return None
        club = self._index.club
        m, u = club.prior_strength, club.unlisted_share
        before = day.toordinal()
        counts = {each: self._cases(each, given, bike, before) for each in faults}
        whole = sum(counts.values()) + bisect_left(self._without_fault(given), before) + m
        return (counts[own] + m * (1 - u) / len(faults)) / whole

    def _faults_of(self, given: tuple[GivenCode, ...], bike: ModelYear | None) -> tuple[str, ...]:
        if (given, bike) not in self._faults:
            self._faults[given, bike] = tuple(each.id for each in faults_of_codes(given, bike, self._index))
        return self._faults[given, bike]

    def _cases(self, fault: str, given: Sequence[GivenCode], bike: ModelYear | None, before: int) -> int:
        """The counted cases of a fault with one of the codes, of causes that exist on the bike."""
        if fault not in self._causes:
            # Where its causes exist is asked, and that no case decides.
            index = self._index
            self._causes[fault] = evidence_by((), index.published[fault], index, index.club).causes
        exist = [cause.id for cause in self._causes[fault] if cause.exists_on(bike)]
        days = self._with_codes(fault, given)
        return sum(bisect_left(days.get(each, ()), before) for each in (*exist, UNLISTED))

    def _with_codes(self, fault_id: str, given: Sequence[GivenCode]) -> Mapping[str, Days]:
        """Cause → the days of its counted cases with one of the codes that are on a root row of the fault."""
        rooted = tuple([each.code for each in given if self._is_rooted(fault_id, each)])
        if (fault_id, rooted) not in self._days:
            formats = self._index.club.code_formats
            self._days[fault_id, rooted] = {
                cause: _days(case for case in cases if shows(case, rooted, formats))
                for cause, cases in self._counted(fault_id).items()
            }
        return self._days[fault_id, rooted]

    def _is_rooted(self, fault_id: str, given: GivenCode) -> bool:
        if (fault_id, given) not in self._rooted:
            index = self._index
            rows = root_rows(index.published[fault_id], [given], index)
            self._rooted[fault_id, given] = any(rows)
        return self._rooted[fault_id, given]

    def _counted(self, fault_id: str) -> Mapping[str, Sequence[Case]]:
        if fault_id not in self._groups:
            index = self._index
            cases = index.cases_by_fault.get(fault_id, ())
            self._groups[fault_id] = counted(index.published[fault_id], cases, index.base)
        return self._groups[fault_id]

    def _without_fault(self, given: tuple[GivenCode, ...]) -> Days:
        if given not in self._no_fault:
            formats = self._index.club.code_formats
            near = {
                case.id: case
                for each in given
                for case in self._no_fault_by_code.get(structure(each.code, formats).base, ())
            }
            codes = [each.code for each in given]
            self._no_fault[given] = _days(case for case in near.values() if shows(case, codes, formats))
        return self._no_fault[given]


def _codes(case: Case) -> list[FaultCode]:
    return [each.read.code for each in case.codes if each.read.code is not None]


def _by_code(cases: Sequence[Case], index: Index) -> Mapping[FaultCode, list[Case]]:
    """Code without its failure type → the cases that show it with any or none."""
    found: dict[FaultCode, list[Case]] = {}
    for case in cases:
        for base in {structure(code, index.club.code_formats).base for code in _codes(case)}:
            found.setdefault(base, []).append(case)
    return found


def _days(cases: Iterable[Case]) -> Days:
    return sorted(case.seen.toordinal() for case in cases if case.seen is not None)
