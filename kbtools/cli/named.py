"""What somebody names on the command line of `kbtools plan`: found in the knowledge base, or refused in a sentence."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, NoReturn

from kbtools.cli.output import misuse
from kbtools.index.answers import Index, ModelYear
from kbtools.index.codes import rows_of_code
from kbtools.index.entries import titles
from kbtools.index.together import GivenCode, fitted_on, scope_of
from kbtools.model.case import CheckResult
from kbtools.model.codes import read_code
from kbtools.model.fault import CodeRow, Fault
from kbtools.text.nearest import nearest_id

if TYPE_CHECKING:
    from kbtools.checkplan.problem import Problem


def refuse(message: str, guess: str | None = None) -> NoReturn:
    """End with exit code 2 and a sentence, and perhaps what was meant."""
    raise misuse(message if guess is None else f'{message} Did you mean "{guess}"?')


def names_of(rows: Iterable[object]) -> dict[str, str]:
    """Id → name of rows that have both."""
    return {getattr(row, "id"): getattr(row, "name") for row in rows}  # noqa: B009 (rows of several kinds)


def known(kind: str, given: Sequence[str], names: Mapping[str, str]) -> Sequence[str]:
    """The ids given, if there is each of them."""
    for each in given:
        if each not in names:
            refuse(f'There is no {kind} "{each}".', _meant(each, names))
    return given


def _meant(name: str, names: Mapping[str, str]) -> str | None:
    """The id that is perhaps meant; in a plan for several faults the name may lack its fault."""
    whole = [each for each in names if each.endswith(f"/{name}")]
    return whole[0] if len(whole) == 1 else nearest_id(name, names)


def find_fault(fault_id: str, index: Index) -> Fault:
    """The entry of that id, an old one perhaps; a draft has a plan too, for whoever writes it."""
    base = index.base
    fault = base.faults.get(index.renamed.get(fault_id, fault_id))
    if fault is None:
        refuse(f'There is no fault "{fault_id}".', nearest_id(fault_id, titles(base)))
    if fault.withdrawn is not None:
        refuse(f'"{fault_id}" is withdrawn.', fault.withdrawn.replaced_by)
    return fault


def find_problem(fault: Fault, index: Index) -> Problem:
    """What the plan of an entry reckons with."""
    from kbtools.checkplan.problem import IncompleteError, problem_of  # noqa: PLC0415

    try:
        return problem_of(fault, index)
    except IncompleteError as error:
        refuse(f"{fault.id} has no plan yet. It lacks: {error}.")


def find_bike(faults: Sequence[Fault], model_id: str | None, year: int | None, index: Index) -> ModelYear | None:
    """The machine that was named, which all of these faults must concern; None where none was."""
    if model_id is None and year is None:
        return None
    if model_id is None or year is None:
        refuse("--model and --year go together: a cause may exist in some years only.")
    known("model", [model_id], names_of(index.base.models.values()))
    if year not in index.years[model_id]:
        built = index.years[model_id]
        refuse(
            f"{model_id} was not built in {year}, but {built[0]} to {built[-1]}." if built else "Its years are unknown."
        )
    for fault in faults:
        concerned = scope_of(fault, index)
        if concerned and year not in concerned.get(model_id, {}):
            refuse(f"{fault.id} does not concern {model_id} of {year}.")
    return model_id, year


def find_results(given: Sequence[str], problem: Problem) -> dict[str, CheckResult]:
    """What came out of checks of a problem, in the order given."""
    from kbtools.checkplan import allowed_results  # noqa: PLC0415

    found: dict[str, CheckResult] = {}
    checks = {check.id: check.id for check in problem.checks}
    for each in given:
        check, sign, result = each.partition("=")
        if not sign:
            refuse(f'"{each}" is no CHECK=RESULT.')
        known("check", [check], checks)
        allowed: dict[str, CheckResult] = {name: name for name in allowed_results(problem, check)}
        if result not in allowed:
            refuse(f'"{result}" cannot come out of {check}, but {", ".join(allowed)}.')
        if check in found:
            refuse(f"{check} has two results.")
        found[check] = allowed[result]
    return found


def find_codes(given: Sequence[str], index: Index) -> tuple[GivenCode, ...]:
    """The codes that were named, each with the control unit before it."""
    return tuple(dict.fromkeys(_code(each, index) for each in given))


def _code(given: str, index: Index) -> GivenCode:
    formats = index.club.code_formats
    unit, sign, text = given.partition(":")
    units = {each.id: each.name for model in index.base.models.values() for each in model.control_units}
    if sign:
        known("control unit", [unit], units)
    reading = read_code(text if sign else given, formats)
    if reading.code is None:
        refuse(f'"{given}" is no fault code of this club, or may be more than one.')
    per_unit = {each.id for each in formats if each.per_unit}
    if not sign and reading.code.format in per_unit:
        refuse(f"{reading.code.text} means nothing without its control unit: write UNIT:{reading.code.text}.")
    return GivenCode(code=reading.code, unit=unit if sign else None)


def code_rows(
    given: Sequence[GivenCode], faults: Sequence[Fault], bike: ModelYear | None, index: Index
) -> Iterator[tuple[str, CodeRow]]:
    """The rows of the entries about the codes given, each with its code; a unit that the bike has not reports none."""
    for each in given:
        for fault in faults:
            for row in rows_of_code(fault, each.code, each.unit, index.club.code_formats):
                if fitted_on(row.unit, bike, index):
                    yield each.label, row
