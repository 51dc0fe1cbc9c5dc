"""`kbtools new`: a draft of an entry, a case report, a model or a whole club, from a few answers."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path, PurePosixPath
from typing import Any

import click

from kbtools.cli import asking
from kbtools.cli.asking import Asker, named
from kbtools.cli.common import checked, kb_option, report
from kbtools.cli.common import day as today
from kbtools.cli.new_club import club
from kbtools.cli.output import misuse, say
from kbtools.drafting.entries import NewFile, case_file, fault_file, model_file, text_of
from kbtools.drafting.naming import new_id, next_case_id
from kbtools.edges.checking import Checked, check, in_folder
from kbtools.edges.shipped import shapes
from kbtools.edges.writing import put_new
from kbtools.index.entries import ids_by_path, living, titles
from kbtools.index.heirs import claims
from kbtools.model.base import KnowledgeBase
from kbtools.similarity.pairs import Kind
from kbtools.similarity.text_query import like_text
from kbtools.similarity.why import carried
from kbtools.text.terminal import shown

_SHOWN = 3
"""So many that resemble it are shown."""


@click.group()
def new() -> None:
    """Write a new file: asks in a terminal, and takes options anywhere.

    What is there already and resembles it is shown first. No file is ever written over.
    """


new.add_command(club)


@new.command()
@kb_option
@click.option("--title", metavar="TEXT", help="What the rider has.")
@click.option("--system", metavar="NAME", help="Id or name of its system.")
@click.option("--model", "models", multiple=True, metavar="NAME[:YEARS]", help="Whom it concerns; may stand again.")
@click.option("--symptom", "symptoms", multiple=True, metavar="TEXT", help="What the rider notices; may stand again.")
@click.option("--code", "codes", multiple=True, metavar="CODE", help="Fault code; may stand again.")
@click.option("--component", "components", multiple=True, metavar="NAME", help="What may be broken; may stand again.")
@click.option("--id", "identity", metavar="ID", help="Name of the file; without it, made of the title.")
def fault(  # noqa: PLR0913, PLR0917 (one for each option)
    folder: Path,
    title: str | None,
    system: str | None,
    models: tuple[str, ...],
    symptoms: tuple[str, ...],
    codes: tuple[str, ...],
    components: tuple[str, ...],
    identity: str | None,
) -> None:
    """Write the draft of an entry about a fault."""
    base = checked(folder).base
    ask = Asker()
    said = ask.one("--title", title, "What does the rider have, in a few words", asking.words)
    if ask.asks:
        _resembling(base, "fault", " ".join((said, *symptoms)), ask)
    of = ask.one("--system", system, "System (? lists them)", _names(base, "system"))
    machines = ask.several("--model", models, "Model, perhaps with years: bittern-900:2003-2007 (? lists)", _row(base))
    notices = ask.several("--symptom", symptoms, "What the rider notices", asking.words)
    read = ask.several("--code", codes, "Fault code", asking.words)
    parts = ask.several("--component", components, "What may be broken (? lists)", _names(base, "component"))
    name = ask.one("--id", identity, "Name of the file", asking.identity, default=new_id(said or ""))
    ask.done()
    _refuse_known(name, {**titles(base), **claims(base)}, "fault")
    if not ask.asks:
        _resembling(base, "fault", " ".join((said, *notices)), ask)
    file = fault_file(name, title=said, system=of, machines=machines, symptoms=notices, codes=read, components=parts)
    _write(folder, file)


@new.command()
@kb_option
@click.option("--model", metavar="NAME", help="Id or name of the model.")
@click.option("--year", metavar="YEAR", help="Model year.")
@click.option("--odometer", metavar="DISTANCE", help="What it showed: 61200 km.")
@click.option("--seen", metavar="DAY", help="When the trouble was seen: 2026-03-14.")
@click.option("--symptom", "symptoms", multiple=True, metavar="TEXT", help="What was noticed; may stand again.")
@click.option("--code", "codes", multiple=True, metavar="CODE", help="Fault code that was read; may stand again.")
@click.option("--fault", "about", metavar="NAME", help="Id or title of the entry that it is about.")
@click.option("--state", metavar="WORD", help="open, solved or returned; without it, open.")
@click.option("--source", metavar="TEXT", help='Who told it, no names; without it, "Member report".')
def case(  # noqa: PLR0913, PLR0917 (one for each option)
    folder: Path,
    model: str | None,
    year: str | None,
    odometer: str | None,
    seen: str | None,
    symptoms: tuple[str, ...],
    codes: tuple[str, ...],
    about: str | None,
    state: str | None,
    source: str | None,
) -> None:
    """Write a case report, under the next number of its model."""
    base = checked(folder).base
    ask = Asker()
    of = ask.one("--model", model, "Model (? lists them)", _names(base, "model"))
    built = ask.one("--year", year, "Model year", asking.year)
    shows = ask.one("--odometer", odometer, "Odometer, such as 61200 km", asking.distance)
    on = ask.one("--seen", seen, "When was it seen", asking.day, default=today().isoformat() if ask.asks else "")
    notices = ask.several("--symptom", symptoms, "What was noticed", asking.words)
    read = ask.several("--code", codes, "Fault code that was read", asking.words)
    if about is None and (notices or read):
        _resembling(base, "fault", " ".join((*read, *notices)), None)
    entry = ask.perhaps("--fault", about, "Which entry is it about (? lists)", _names(base, "fault"))
    states = ("open", "solved", "returned")
    ended = ask.one("--state", state, "open, solved or returned", asking.one_of(states), default="open")
    told = ask.one("--source", source, "Who told it, no names", asking.words, default="Member report")
    ask.done()
    file = case_file(
        next_case_id(of, ids_by_path(base).values()),
        model=of,
        year=built,
        odometer=shows,
        seen=on,
        symptoms=notices,
        codes=read,
        fault=entry,
        state=ended,
        source={"kind": "first-hand", "title": told},
    )
    _write(folder, file)


@new.command()
@kb_option
@click.option("--name", metavar="TEXT", help="As the club calls it.")
@click.option("--years", metavar="YEARS", help="In which it was built: 2003-2012.")
@click.option("--also", multiple=True, metavar="TEXT", help="Another name; may stand again.")
@click.option("--id", "identity", metavar="ID", help="Name of the file; without it, made of the name.")
def model(folder: Path, name: str | None, years: str | None, also: tuple[str, ...], identity: str | None) -> None:
    """Write a model."""
    base = checked(folder).base
    ask = Asker()
    called = ask.one("--name", name, "What does the club call it", asking.words)
    built = ask.one("--years", years, "Built in (2003-2012, 2010- if it still is)", asking.years)
    others = ask.several("--also", also, "Another name", asking.words)
    file_name = ask.one("--id", identity, "Name of the file", asking.identity, default=new_id(called or ""))
    ask.done()
    _refuse_known(file_name, base.models, "model")
    _write(folder, model_file(file_name, name=called, years=built, also_called=others))


def _names(base: KnowledgeBase, kind: str) -> Callable[[str], str]:
    names: dict[str, Mapping[str, Sequence[str]]] = {
        "system": {each.id: [each.name] for each in base.systems.values()},
        "component": {each.id: [each.name] for each in base.components.values()},
        "model": {each.id: [each.name, *each.also_called] for each in base.models.values()},
        "fault": {each.id: [each.title] for each in living(base).values()},
    }
    return named(kind, names[kind], unsure=kind in base.unsure)


def _row(base: KnowledgeBase) -> Callable[[str], tuple[str, str]]:
    """Reads a model, with its years behind a colon or all of them."""
    known = _names(base, "model")

    def read(text: str) -> tuple[str, str]:
        name, sign, when = text.partition(":")
        return known(name), asking.years(when) if sign else "all"

    return read


def _refuse_known(identity: str, known: Mapping[str, Any], kind: str) -> None:
    if identity in known:
        raise misuse(f'There is a {kind} "{identity}" already, or was. --id gives the new one another name.')


def _resembling(base: KnowledgeBase, kind: Kind, text: str, ask: Asker | None) -> None:
    """Show what is there already; whoever can be asked says whether to go on."""
    alike = like_text(base, kind, text)[:_SHOWN]
    if not alike:
        return
    say("There is already:\n", err=True)
    for pair in alike:
        say(f"  {pair.b}: {shown(base.faults[pair.b].title)} ({carried(pair.fields)})\n", err=True)
    if ask is not None and ask.asks and not click.confirm("Write a new one all the same?", default=True, err=True):
        raise click.Abort


def _write(folder: Path, file: NewFile) -> None:
    """Write it, say where, and what a check says of it."""
    schema = folder.parent / "schemas" / f"{file.kind}.schema.json"
    above = "../" * len(PurePosixPath(file.path).parts)
    line = f"{above}schemas/{schema.name}" if schema.is_file() else None
    place = folder / file.path
    if os.path.lexists(place):
        raise misuse(f"{place} is there already, and stays as it is. --id gives the new one another name.")
    put_new(folder, file.path, text_of(file, shapes()[file.kind].hints, line).encode())
    say(f"{shown(Path(os.path.relpath(place)).as_posix())}\n")
    result: Checked = check(folder, today())
    local = zip(result.findings, in_folder(result.findings, folder), strict=True)
    own = tuple(finding for finding, inner in local if inner.path == file.path)
    if own:
        report(Checked(base=result.base, findings=own), folder)
