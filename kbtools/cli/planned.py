"""The two forms of `kbtools plan`: of one fault, and one plan for several."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, NoReturn

from kbtools.cli.named import code_rows, find_bike, find_problem, find_results, known, refuse
from kbtools.index.answers import Index, ModelYear
from kbtools.index.together import GivenCode, faults_of_codes, root_rows, share_a_machine, with_code
from kbtools.model.catalogue import Skill
from kbtools.model.fault import CodeRow, Fault
from kbtools.text.terminal import json_text

if TYPE_CHECKING:
    from kbtools.checkplan import Owner
    from kbtools.checkplan.problem import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """What was named besides faults. What is looked up in every base was found; the rest depends on the faults."""

    model_id: str | None
    """As given."""
    year: int | None
    """As given."""
    skill: Skill
    """The most that the owner does."""
    own_time: float | None
    """What an hour of the owner's time counts for."""
    has: frozenset[str]
    """Ids of tools."""
    lacks: frozenset[str]
    """Ids of tools."""
    absent: bool
    """The fault is not there now."""
    opened: frozenset[str]
    """Ids of access jobs."""
    covered: Sequence[str]
    """Causes, as given."""
    results: Sequence[str]
    """CHECK=RESULT, as given."""
    codes: Sequence[GivenCode]
    """The codes."""


def one_plan(faults: Sequence[Fault], named: Named, index: Index, *, as_json: bool) -> str:
    """The plan of one fault; codes count for its ride advice only."""
    # They load scipy, and the other commands do without it.
    from kbtools.checkplan import plan_of, whole_record  # noqa: PLC0415
    from kbtools.checkplan.beside import beside_of, words_of_codes  # noqa: PLC0415
    from kbtools.report.plan import Asked, render  # noqa: PLC0415

    (fault,) = faults
    problem = find_problem(fault, index)
    bike = find_bike(faults, named.model_id, named.year, index)
    owner = _owner(named, bike, problem, {cause.id: cause.id for cause in fault.causes})
    found = plan_of(problem, owner)
    words = tuple(words_of_codes(code_rows(named.codes, faults, bike, index)))
    if as_json:
        return json_text(whole_record(found, problem, owner, beside_of(fault, index), words))
    return render(found, fault, Asked(problem=problem, owner=owner, codes=words), index)


def several_plan(faults: Sequence[Fault], named: Named, index: Index, *, as_json: bool) -> str:
    """One plan for the faults that were named, or for those that may be behind the codes."""
    from kbtools.checkplan import plan_of  # noqa: PLC0415
    from kbtools.checkplan.beside import words_of_codes  # noqa: PLC0415
    from kbtools.checkplan.joint_beside import joint_record  # noqa: PLC0415
    from kbtools.checkplan.parts import MOST_FAULTS, joint_plan  # noqa: PLC0415
    from kbtools.report.joint_plan import JointAsked, render_joint  # noqa: PLC0415

    given = None if faults else named.codes
    bike = find_bike(faults, named.model_id, named.year, index)
    faults = faults or _of_codes(named.codes, bike, index)
    _planned_together(faults, bike, index, MOST_FAULTS)
    for fault in faults:
        find_problem(fault, index)
    joint = joint_plan(faults, given, bike, index)
    called = {"/".join(member): name for name, members in joint.members.items() for member in members}
    owner = _owner(named, bike, joint.problem, called)
    found = plan_of(joint.problem, owner)
    words = tuple(words_of_codes(code_rows(named.codes, faults, bike, index)))
    if as_json:
        return json_text(joint_record(joint, found, owner, words))
    told = JointAsked(
        problem=joint.problem,
        owner=owner,
        codes=words,
        joint=joint,
        faults=faults,
        given=[each.label for each in named.codes],
        unexplained=[each.label for each in named.codes if not any(_rows(each, faults, index))],
    )
    return render_joint(found, told, index)


def _rows(given: GivenCode, faults: Sequence[Fault], index: Index) -> Iterator[CodeRow]:
    return (row for fault in faults for row in root_rows(fault, [given], index))


def _owner(named: Named, bike: ModelYear | None, problem: Problem, causes: Mapping[str, str]) -> Owner:
    """The owner of a problem; `causes` has all that a cause may be called, and what the problem calls it."""
    from kbtools.checkplan import Owner  # noqa: PLC0415

    return Owner(
        bike=bike,
        skill=named.skill,
        own_time_value=named.own_time,
        has=named.has,
        lacks=named.lacks,
        absent=named.absent,
        covered=frozenset(causes[each] for each in known("cause", named.covered, causes)),
        opened=named.opened,
        results=find_results(named.results, problem),
    )


def _of_codes(given: Sequence[GivenCode], bike: ModelYear | None, index: Index) -> Sequence[Fault]:
    found = faults_of_codes(given, bike, index)
    if not found:
        _explain(given, bike, index)
    return found


def _explain(given: Sequence[GivenCode], bike: ModelYear | None, index: Index) -> NoReturn:
    """Refuse codes that lead to no fault, and say why they do not."""
    labels = " or ".join(each.label for each in given)
    if not any(fault for each in given for fault in with_code(each, index)):
        refuse(f"No entry has {labels}.")
    if bike is not None and faults_of_codes(given, None, index):
        refuse(f"No fault of {bike[0]} of {bike[1]} has {labels}.")
    refuse(f"Where entries have {labels}, it follows from another code, or comes with one: read all codes first.")


def _planned_together(faults: Sequence[Fault], bike: ModelYear | None, index: Index, most: int) -> None:
    """Refuse what makes no joint plan."""
    ids = [fault.id for fault in faults]
    twice = next((each for each in ids if ids.count(each) > 1), None)
    if twice is not None:
        refuse(f"{twice} is named twice.")
    if len(faults) > most:
        refuse(f"{len(faults)} faults are too many for one plan: {most} at most.")
    if bike is None and not share_a_machine(faults, index):
        refuse(f"No machine can have all of {', '.join(ids)}: name yours with --model and --year, or other faults.")
