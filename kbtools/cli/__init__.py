"""The command line: `kbtools`, one module a command."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from kbtools import __version__
from kbtools.cli.add_report import add_report
from kbtools.cli.agenda import agenda
from kbtools.cli.build import build
from kbtools.cli.changes import changes
from kbtools.cli.check import check
from kbtools.cli.code import code
from kbtools.cli.evidence import evidence
from kbtools.cli.handbook import handbook
from kbtools.cli.links import links_command
from kbtools.cli.new import new
from kbtools.cli.output import refused, say
from kbtools.cli.plan import plan
from kbtools.cli.replay import replay_command
from kbtools.cli.rules import rules
from kbtools.cli.schemas import schemas
from kbtools.cli.serve import serve
from kbtools.cli.similar import similar_command
from kbtools.cli.tidy import tidy
from kbtools.cli.upgrade import upgrade


class _Program(click.Group):
    """Whatever the system refuses is told in a sentence, in every command."""

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command that was asked for."""
        try:
            return super().invoke(ctx)
        except OSError as error:
            raise refused(error) from error
        except MemoryError as error:
            raise click.ClickException("There is not enough memory for this knowledge base.") from error


@click.group(cls=_Program, context_settings={"help_option_names": ["-h", "--help"]}, invoke_without_command=True)
@click.version_option(__version__)
@click.pass_context
def main(context: click.Context) -> None:
    """Check a club's fault lore and publish it as a static site."""
    if context.invoked_subcommand is None:
        say(f"{_next()}\n{context.get_help()}\n")


def _next() -> str:
    """What to do first, where no command was named."""
    if Path("kb").is_dir():
        return "The knowledge base is in kb. What is next: kbtools agenda. Whether all is well: kbtools check.\n"
    return (
        "There is no knowledge base here: no folder kb.\n"
        'To begin one: kbtools new club FOLDER --name "Name of the club". '
        "If you have one elsewhere, go there, or name its folder: kbtools check --kb FOLDER.\n"
    )


def _summary(command: click.Command) -> str:
    """The first sentence of a command's help, whole."""
    first = (command.help or "").partition("\n\n")[0]
    return " ".join(first.split())


for _command in (
    add_report,
    agenda,
    build,
    changes,
    check,
    code,
    evidence,
    handbook,
    links_command,
    new,
    plan,
    replay_command,
    rules,
    schemas,
    serve,
    similar_command,
    tidy,
    upgrade,
):
    # click cuts a summary after 45 characters unless it is given one.
    _command.short_help = _summary(_command)
    main.add_command(_command)
