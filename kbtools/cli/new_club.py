"""`kbtools new club`: a club's own repository, which builds at once."""

from __future__ import annotations

import re
from pathlib import Path

import click

from kbtools import __version__
from kbtools.cli.asking import Asker
from kbtools.cli.common import day
from kbtools.cli.output import misuse, say
from kbtools.diagnostics import has_errors
from kbtools.drafting.club import (
    CODE_FORMATS,
    NewClub,
    Starting,
    club_files,
    club_name,
    codes,
    currency,
    licence,
    new_model,
    unit_of,
)
from kbtools.edges.checking import findings_of_new
from kbtools.edges.new_folder import TakenError, put_folder, refuse_taken
from kbtools.edges.shipped import schema_files, shapes, starter
from kbtools.report.editor_schemas import settings_rows
from kbtools.text.terminal import shown


@click.command()
@click.argument("folder", metavar="FOLDER", type=click.Path(path_type=Path))
@click.option("--name", metavar="TEXT", help="Of the club.")
@click.option("--currency", "money", metavar="CODE", help="ISO 4217; without it, EUR.")
@click.option("--country", metavar="CODE", help="ISO 3166, for telephone numbers and for km or mi: DE, GB.")
@click.option("--licence", "terms", metavar="ID", help="Of the content, by SPDX; without it, CC-BY-4.0.")
@click.option(
    "--codes",
    "formats",
    multiple=True,
    metavar="WORD",
    help=f"Which fault codes the machines give: {', '.join(CODE_FORMATS)}; may stand again; without it, both.",
)
@click.option("--model", "models", multiple=True, metavar='"NAME YEARS"', help="One to begin with; may stand again.")
def club(  # noqa: PLR0913, PLR0917 (one for each option)
    folder: Path,
    name: str | None,
    money: str | None,
    country: str | None,
    terms: str | None,
    formats: tuple[str, ...],
    models: tuple[str, ...],
) -> None:
    """Write a club's own repository into FOLDER: a knowledge base to begin with, and all that checks and publishes it.

    FOLDER is not there yet, or empty. It is there whole afterwards, or as it was.
    """
    day()
    _refuse(folder)
    ask = Asker()
    called = ask.one("--name", name, "What is the club called", club_name)
    paid = ask.one("--currency", money, "Currency, three letters", currency, default="EUR")
    where = ask.perhaps("--country", country, "Country, two letters such as DE or GB", _country)
    under = ask.one("--licence", terms, "Licence of the content", licence, default="CC-BY-4.0")
    kinds = ask.several("--codes", formats, f"Which codes ({', '.join(CODE_FORMATS)}; none named: both)", codes)
    first = ask.several("--model", models, "A model with its years, such as Wren 400 2003-2008", new_model)
    ask.done()
    twice = next((each.id for at, each in enumerate(first) if each.id in {other.id for other in first[:at]}), None)
    if twice is not None:
        raise misuse(f'Two models would be called "{twice}". Leave one out, and write it with kbtools new model --id.')
    made = NewClub(
        name=called, currency=paid, country=where, licence=under, codes=kinds or tuple(CODE_FORMATS), models=first
    )
    files = {path: text.encode() for path, text in _all_files(made).items()}
    # The base is what it will be: nothing is written that would not build.
    wrong = findings_of_new({path[3:]: data for path, data in files.items() if path.startswith("kb/")}, day())
    if has_errors(list(wrong)):
        raise misuse(" ".join(f"{each.path}: {each.message}" for each in wrong if each.severity == "error"))
    try:
        put_folder(folder, files)
    except TakenError as error:
        raise misuse(str(error)) from error
    say(f"{shown(str(folder))}\n")
    say(_next(folder, made), err=True)


def _refuse(folder: Path) -> None:
    try:
        refuse_taken(folder)
    except TakenError as error:
        raise misuse(str(error)) from error


def _all_files(made: NewClub) -> dict[str, str]:
    kb, around = starter()
    schemas = schema_files()
    settings = {
        "yaml.schemas": settings_rows(schemas, ".schemas", "kb"),
        "yaml.yamlVersion": "1.2",
        "yaml.schemaStore.enable": False,
        "files.encoding": "utf8",
        "files.eol": "\n",
        "files.insertFinalNewline": True,
    }
    starting = Starting(
        kb=kb,
        files=around,
        schemas=schemas,
        hints={kind: shape.hints for kind, shape in shapes().items()},
        settings=settings,
        version=__version__,
    )
    return club_files(made, starting)


def _country(text: str) -> str:
    """A country's code, as the schema of club.yml has them."""
    known = schema_files()["club.schema.json"]["properties"]["phone_countries"]["items"]["pattern"]
    code = text.strip().upper()
    if re.fullmatch(known, code) is None:
        hint = " Great Britain is GB." if code == "UK" else ""
        raise ValueError(f'"{shown(text)}" is no country of ISO 3166, such as DE or GB.{hint}')
    return code


def _next(folder: Path, made: NewClub) -> str:
    return (
        f"Money is in {made.currency}, distances in {unit_of(made.country)}; what an hour costs is a guess:"
        " look at kb/club.yml first.\n"
        "What to do next:\n"
        f"  cd {shown(str(folder))}\n"
        "  kbtools build          the site, as it stands, in site/\n"
        "  kbtools new fault      the first entry\n"
        "README.md in it is for your members.\n"
    )
