"""The command line: `kbtools`, one module a command."""

from __future__ import annotations

import importlib
from collections.abc import Iterator, Mapping, MutableMapping
from pathlib import Path
from typing import Any, Final, cast

import click

from kbtools import __version__

_COMMANDS: Final[Mapping[str, str]] = {
    "add-report": "add_report:add_report",
    "agenda": "agenda:agenda",
    "build": "build:build",
    "changes": "changes:changes",
    "check": "check:check",
    "code": "code:code",
    "evidence": "evidence:evidence",
    "handbook": "handbook:handbook",
    "links": "links:links_command",
    "new": "new:new",
    "plan": "plan:plan",
    "replay": "replay:replay_command",
    "rules": "rules:rules",
    "schemas": "schemas:schemas",
    "serve": "serve:serve",
    "similar": "similar:similar_command",
    "tidy": "tidy:tidy",
    "upgrade": "upgrade:upgrade",
}
"""Name of each command → its module in this room, and its name there. Only the one that is asked for is loaded."""


class _Commands(Mapping[str, click.Command]):
    """The commands by name, each loaded when somebody asks for it."""

    def __getitem__(self, name: str) -> click.Command:
        module, _, attribute = _COMMANDS[name].partition(":")
        command: click.Command = getattr(importlib.import_module(f"{__name__}.{module}"), attribute)
        # click cuts a summary after 45 characters unless it is given one.
        command.short_help = _summary(command)
        return command

    def __iter__(self) -> Iterator[str]:
        return iter(_COMMANDS)

    def __contains__(self, name: object) -> bool:
        return name in _COMMANDS

    def __len__(self) -> int:
        return len(_COMMANDS)


class _Program(click.Group):
    """Whatever the system refuses is told in a sentence, in every command."""

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command that was asked for."""
        try:
            return super().invoke(ctx)
        except OSError as error:
            from kbtools.cli.output import refused  # noqa: PLC0415

            raise refused(error) from error
        except MemoryError as error:
            raise click.ClickException("There is not enough memory for this knowledge base.") from error


@click.group(
    cls=_Program,
    # click asks for names and for one of them; nothing is ever added.
    commands=cast(MutableMapping[str, click.Command], _Commands()),
    context_settings={"help_option_names": ["-h", "--help"]},
    invoke_without_command=True,
)
@click.version_option(__version__)
@click.pass_context
def main(context: click.Context) -> None:
    """Check a club's fault lore and publish it as a static site."""
    if context.invoked_subcommand is None:
        from kbtools.cli.output import say  # noqa: PLC0415

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
