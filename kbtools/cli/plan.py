"""`kbtools plan`: what to check first, what it costs, and what to do then."""

from __future__ import annotations

from pathlib import Path

import click

from kbtools.cli.common import checked, day, kb_option, report
from kbtools.cli.named import find_codes, find_fault, known, names_of, refuse
from kbtools.cli.output import say
from kbtools.cli.planned import Named, one_plan, several_plan
from kbtools.index.build import build_index
from kbtools.model.catalogue import SKILLS, Skill


@click.command()
@click.argument("fault_ids", nargs=-1, metavar="[FAULT…]")
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
    help="A code that the reader shows: one plan for the faults that may be behind it. With one FAULT it counts for the"
    " ride advice only. UNIT:CODE where it means nothing alone.",
)
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
def plan(  # noqa: PLR0913, PLR0917 (one for each option)
    fault_ids: tuple[str, ...],
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

    Two FAULTs and more, or codes without a FAULT, get one plan for all of them. Their checks and causes are called
    fault/check and fault/cause then.

    The cost counts parts, workshop, transport and your own time. The next step in the list follows a good result.
    Exit code 2: something that was named does not exist.
    """
    if len(fault_ids) > 1 and codes:
        refuse("Name one fault, several faults, or codes: several faults and --code do not go together.")
    if not fault_ids and not codes:
        refuse("Name a fault, or a code with --code.")
    result = checked(folder)
    index = build_index(result.base, day())
    faults = [find_fault(each, index) for each in fault_ids]
    if index.base.club is None or any(fault.damaged for fault in faults):
        report(result, folder)
        raise SystemExit(1)
    tools = names_of(index.base.tools.values())
    asked = Named(
        model_id=model_id,
        year=year,
        skill=skill,
        own_time=own_time,
        has=frozenset(known("tool", has, tools)),
        lacks=frozenset(known("tool", lacks, tools)),
        absent=absent,
        opened=frozenset(known("access job", opened, names_of(index.base.access.values()))),
        covered=covered,
        results=results,
        codes=find_codes(codes, index),
    )
    work = one_plan if len(faults) == 1 else several_plan
    say(work(faults, asked, index, as_json=form == "json"), fit=form != "json")
