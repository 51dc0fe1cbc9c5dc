"""`kbtools plan`: what to check first, what it costs, and what to do then."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from kbtools.cli.common import checked, day, kb_option, report
from kbtools.cli.output import misuse, say
from kbtools.index.answers import Index, ModelYear
from kbtools.index.build import build_index
from kbtools.index.codes import rows_of_code
from kbtools.index.entries import titles
from kbtools.model.case import CheckResult
from kbtools.model.catalogue import SKILLS, Skill
from kbtools.model.codes import FaultCode, read_code
from kbtools.model.fault import CodeRow, Fault
from kbtools.text.nearest import nearest_id

if TYPE_CHECKING:
    from kbtools.checkplan.problem import Problem
from kbtools.text.terminal import json_text


@click.command()
@click.argument("fault_id", metavar="FAULT")
@kb_option
@click.option("--model", "model_id", metavar="MODEL", help="Id of the model; with --year.")
@click.option("--year", type=int, help="Model year; with --model.")
@click.option("--skill", type=click.Choice(SKILLS), default="home", show_default=True, help="The most that you do.")
@click.option(
    "--own-time",
    type=click.FloatRange(0, 10_000),
    metavar="N",
    help="What an hour of your own time counts for, instead of what the club says.",
)
@click.option("--with", "has", multiple=True, metavar="TOOL", help="A tool that you have besides the usual ones.")
@click.option("--without", "lacks", multiple=True, metavar="TOOL", help="A tool that you do not have.")
@click.option("--absent", is_flag=True, help="The fault is not there now.")
@click.option("--open", "opened", multiple=True, metavar="ACCESS", help="An access job that is done, as `seat-off`.")
@click.option(
    "--result",
    "results",
    multiple=True,
    metavar="CHECK=RESULT",
    help="What came out of a check: good, bad, low, high or unclear. What it took off is taken to be off still.",
)
@click.option(
    "--covered", multiple=True, metavar="CAUSE", help="The dealer has confirmed by the frame number: the maker pays."
)
@click.option(
    "--code",
    "codes",
    multiple=True,
    metavar="CODE",
    help="A code that the reader shows; it may call for stricter ride advice. UNIT:CODE where it means nothing alone.",
)
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
def plan(  # noqa: PLR0913, PLR0917 (one for each option)
    fault_id: str,
    folder: Path,
    model_id: str | None,
    year: int | None,
    skill: Skill,
    own_time: float | None,
    has: tuple[str, ...],
    lacks: tuple[str, ...],
    opened: tuple[str, ...],
    results: tuple[str, ...],
    covered: tuple[str, ...],
    codes: tuple[str, ...],
    form: str,
    *,
    absent: bool,
) -> None:
    """Say what to check first about FAULT so that the bike is whole again at the least expected cost.

    The cost counts parts, workshop, transport and your own time. The next step in the list follows a good result.
    Exit code 2: something that was named does not exist.
    """
    # They load scipy, and the other commands do without it.
    from kbtools.checkplan import Owner, plan_of, whole_record  # noqa: PLC0415
    from kbtools.checkplan.beside import beside_of, words_of_codes  # noqa: PLC0415
    from kbtools.report.plan import Asked, render  # noqa: PLC0415

    result = checked(folder)
    index = build_index(result.base, day())
    fault = _fault(fault_id, index)
    if index.base.club is None or fault.damaged:
        report(result, folder)
        raise SystemExit(1)
    problem = _problem(fault, index)
    owner = Owner(
        bike=_bike(fault, model_id, year, index),
        skill=skill,
        own_time_value=own_time,
        has=frozenset(_known("tool", has, _names(index.base.tools.values()))),
        lacks=frozenset(_known("tool", lacks, _names(index.base.tools.values()))),
        absent=absent,
        covered=frozenset(_known("cause", covered, {cause.id: cause.id for cause in fault.causes})),
        opened=frozenset(_known("access job", opened, _names(index.base.access.values()))),
        results=_results(results, fault, problem),
    )
    found = plan_of(problem, owner)
    beside = beside_of(fault, index)
    words = tuple(words_of_codes(_code_rows(codes, fault, owner.bike, index)))
    if form == "json":
        say(json_text(whole_record(found, problem, owner, beside, words)))
    else:
        say(render(found, fault, Asked(problem=problem, owner=owner, codes=words), index))


def _refuse(message: str, guess: str | None = None) -> NoReturn:
    raise misuse(message if guess is None else f'{message} Did you mean "{guess}"?')


def _names(rows: Iterable[object]) -> dict[str, str]:
    return {getattr(row, "id"): getattr(row, "name") for row in rows}  # noqa: B009 (rows of several kinds)


def _known(kind: str, given: Sequence[str], names: Mapping[str, str]) -> Sequence[str]:
    for each in given:
        if each not in names:
            _refuse(f'There is no {kind} "{each}".', nearest_id(each, names))
    return given


def _fault(fault_id: str, index: Index) -> Fault:
    """The entry of that id, an old one perhaps; a draft has a plan too, for whoever writes it."""
    base = index.base
    fault = base.faults.get(index.renamed.get(fault_id, fault_id))
    if fault is None:
        _refuse(f'There is no fault "{fault_id}".', nearest_id(fault_id, titles(base)))
    if fault.withdrawn is not None:
        _refuse(f'"{fault_id}" is withdrawn.', fault.withdrawn.replaced_by)
    return fault


def _problem(fault: Fault, index: Index) -> Problem:
    from kbtools.checkplan.problem import IncompleteError, problem_of  # noqa: PLC0415

    try:
        return problem_of(fault, index)
    except IncompleteError as error:
        _refuse(f"{fault.id} has no plan yet. It lacks: {error}.")


def _bike(fault: Fault, model_id: str | None, year: int | None, index: Index) -> ModelYear | None:
    if model_id is None and year is None:
        return None
    if model_id is None or year is None:
        _refuse("--model and --year go together: a cause may exist in some years only.")
    _known("model", [model_id], _names(index.base.models.values()))
    if year not in index.years[model_id]:
        built = index.years[model_id]
        _refuse(
            f"{model_id} was not built in {year}, but {built[0]} to {built[-1]}." if built else "Its years are unknown."
        )
    if fault.id in index.scopes and year not in index.scopes[fault.id].get(model_id, {}):
        _refuse(f"{fault.id} does not concern {model_id} of {year}.")
    return model_id, year


def _results(given: Sequence[str], fault: Fault, problem: Problem) -> dict[str, CheckResult]:
    from kbtools.checkplan import allowed_results  # noqa: PLC0415

    found: dict[str, CheckResult] = {}
    checks = {check.id: check.id for check in fault.checks}
    for each in given:
        check, sign, result = each.partition("=")
        if not sign:
            _refuse(f'"{each}" is no CHECK=RESULT.')
        _known("check", [check], checks)
        allowed: dict[str, CheckResult] = {name: name for name in allowed_results(problem, check)}
        if result not in allowed:
            _refuse(f'"{result}" cannot come out of {check}, but {", ".join(allowed)}.')
        if check in found:
            _refuse(f"{check} has two results.")
        found[check] = allowed[result]
    return found


def _code_rows(
    given: Sequence[str], fault: Fault, bike: ModelYear | None, index: Index
) -> Iterator[tuple[str, CodeRow]]:
    """The rows of the entry about the codes given, each with its code; a unit that the bike has not reports none."""
    for each in given:
        unit, code = _code(each, index)
        label = code.text if unit is None else f"{unit}:{code.text}"
        for row in rows_of_code(fault, code, unit, index.club.code_formats):
            fitted = None if bike is None else {each.id for each in index.units_by_model_year.get(bike, ())}
            if row.unit is None or fitted is None or row.unit in fitted:
                yield label, row


def _code(given: str, index: Index) -> tuple[str | None, FaultCode]:
    """A code as it was given, and the control unit before it."""
    formats = index.club.code_formats
    unit, sign, text = given.partition(":")
    units = {each.id: each.name for model in index.base.models.values() for each in model.control_units}
    if sign:
        _known("control unit", [unit], units)
    reading = read_code(text if sign else given, formats)
    if reading.code is None:
        _refuse(f'"{given}" is no fault code of this club, or may be more than one.')
    per_unit = {each.id for each in formats if each.per_unit}
    if not sign and reading.code.format in per_unit:
        _refuse(f"{reading.code.text} means nothing without its control unit: write UNIT:{reading.code.text}.")
    return (unit if sign else None), reading.code
