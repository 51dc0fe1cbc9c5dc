"""Which faults may be behind fault codes at once, which of their cases speak for them, and which causes are one.

A given code is what a reader shows, with the control unit before it where it means nothing alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from kbtools.index.answers import Index, ModelYear
from kbtools.index.cases import counted_by_fault, solved_without_fault
from kbtools.index.codes import meet, near_codes, rows_of_code
from kbtools.index.entries import faults
from kbtools.index.heirs import heirs
from kbtools.index.per_base import per_base
from kbtools.index.scopes import Scope, scope
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.codes import CodeFormat, FaultCode, structure
from kbtools.model.fault import CodeRow, Fault


@dataclass(frozen=True, slots=True, kw_only=True)
class GivenCode:
    """A code that a reader shows."""

    code: FaultCode
    """The code."""
    unit: str | None
    """Id of the control unit that shows it; None: not known."""

    @property
    def label(self) -> str:
        """As it is written: `P0562`, or `abs-a:4-2`."""
        return self.code.text if self.unit is None else f"{self.unit}:{self.code.text}"


def faults_of_codes(given: Sequence[GivenCode], bike: ModelYear | None, index: Index) -> tuple[Fault, ...]:
    """The published faults that may be behind these codes on a bike, by id.

    A fault may be if it concerns the bike and has a row about one of the codes that is no consequence of another one,
    whose control unit is fitted on the bike, and each of whose `with` was given.
    """
    ids = {fault.id for each in given for fault in with_code(each, index)}
    return tuple(
        index.published[each]
        for each in sorted(ids)
        if (bike is None or bike[1] in index.scopes.get(each, {}).get(bike[0], {}))
        and any(behind(row, given, bike, index) for row in root_rows(index.published[each], given, index))
    )


def with_code(given: GivenCode, index: Index) -> Iterator[Fault]:
    """The published faults with any row about a code, as `faults_of` matches them."""
    formats = index.club.code_formats
    family = index.code_families.get(structure(given.code, formats).base, ())
    for code in (given.code, *near_codes(given.code, family, formats)):
        for use in index.uses_by_code.get(code, ()):
            yield use.fault


def root_rows(fault: Fault, given: Iterable[GivenCode], index: Index) -> Iterator[CodeRow]:
    """The rows of a fault about these codes that are no consequences of others."""
    for each in given:
        for row in rows_of_code(fault, each.code, each.unit, index.club.code_formats):
            if not row.follow_on:
                yield row


def behind(row: CodeRow, given: Sequence[GivenCode], bike: ModelYear | None, index: Index) -> bool:
    """Whether a row can be what the reader shows: its unit is on the bike, and all that it comes with is there."""
    seen = [each.code for each in given]
    together = all(
        each.code is not None and meet(seen, [each.code], index.club.code_formats) for each in row.with_codes
    )
    return together and fitted_on(row.unit, bike, index)


def fitted_on(unit: str | None, bike: ModelYear | None, index: Index) -> bool:
    """Whether a control unit is on a bike; where either is not named nothing speaks against it."""
    return unit is None or bike is None or unit in {each.id for each in index.units_by_model_year.get(bike, ())}


def cases_with(fault: Fault, given: Sequence[GivenCode], index: Index) -> Mapping[str, int]:
    """Cause of a fault, or `unlisted` → its counted cases with one of the codes that are on a root row of it."""
    rooted = [each.code for each in given if any(root_rows(fault, [each], index))]
    groups = counted_by_fault(index.base).get(fault.id, {})
    formats = index.club.code_formats
    return {cause: sum(shows(case, rooted, formats) for case in cases) for cause, cases in groups.items()}


def cases_without_fault(given: Sequence[GivenCode], index: Index) -> int:
    """The solved cases with one of the codes that are about no fault.

    Where a code means nothing without its control unit, that unit must have been on the case's machine.
    """
    formats = index.club.code_formats
    return sum(
        any(shows(case, [each.code], formats) and fitted_on(each.unit, machine_of(case), index) for each in given)
        for case in solved_without_fault(index.base)
    )


def shows(case: Case, codes: Sequence[FaultCode], formats: Sequence[CodeFormat]) -> bool:
    """Whether one of these codes was read out of a bike, with any failure type where one of the two has none."""
    seen = [each.read.code for each in case.codes if each.read.code is not None]
    return meet(seen, codes, formats)


def machine_of(case: Case) -> ModelYear | None:
    """The machine of a case; None where a damaged one does not say."""
    model, year = case.vehicle.model, case.vehicle.year
    return None if model is None or year is None else (model, year)


def scope_of(fault: Fault, index: Index) -> Scope:
    """Whom a fault concerns, whatever its state."""
    return index.scopes.get(fault.id) or scope(fault.applies_to, index.base.models, index.years)


def share_a_machine(planned: Sequence[Fault], index: Index) -> bool:
    """Whether one machine can have all of them; an entry that does not say whom it concerns rules nothing out."""
    scopes = [scope_of(fault, index) for fault in planned]
    machines = [{(model, year) for model, years in each.items() for year in years} for each in scopes if each]
    return not machines or bool(set.intersection(*machines))


@per_base
def one_causes(base: KnowledgeBase) -> Mapping[str, Mapping[str, str]]:
    """Fault → its causes that are one with a cause of another → the name of their group: its first `fault/cause`.

    What is the same as the same is the same, also by way of an entry that is not asked about.
    """
    groups: dict[str, set[str]] = {}
    old = heirs(base)
    for fault in faults(base):
        for cause in fault.causes:
            if cause.same_as is not None:
                other, _, name = cause.same_as.partition("/")
                other = other if other in base.faults else old.get(other, other)
                one, two = f"{fault.id}/{cause.id}", f"{other}/{name}"
                joined = groups.get(one, {one}) | groups.get(two, {two})
                groups.update(dict.fromkeys(joined, joined))
    found: dict[str, dict[str, str]] = {}
    for member, group in groups.items():
        fault_id, _, name = member.partition("/")
        found.setdefault(fault_id, {})[name] = min(group)
    return found
