"""`kbtools upgrade`: what a newer version wants changed in a knowledge base."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import click

from kbtools.cli.common import day, kb_option
from kbtools.cli.output import context_for, say
from kbtools.diagnostics import Finding, has_errors
from kbtools.edges.checking import findings_with
from kbtools.edges.folder import files
from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import shapes
from kbtools.edges.writing import put_all
from kbtools.reading.upgraded import KeptError, NewerError, upgraded
from kbtools.report import text
from kbtools.text.terminal import shown


@click.command()
@kb_option
@click.option("--check", "only_check", is_flag=True, help="Change nothing; exit code 1 if something would change.")
def upgrade(folder: Path, only_check: bool) -> None:
    """Bring the files of a knowledge base to the format of this version.

    What needs no judgement is done, all of it or nothing; what is published stays the same, and so do comments. Then
    it says by rule what is found now, and lists the errors, which somebody has to mend before the site builds again.

    Exit code 0: all is done, and nothing is left to mend. 1: errors are left; or, with --check, something would
    change; or nothing could be done, and it says why. 2: called wrongly.
    """
    sources = list(files(folder))
    try:
        changed = upgraded(sources, shapes())
    except NewerError as error:
        raise click.ClickException(shown(str(error))) from error
    except KeptError as error:
        raise click.ClickException(f"{shown(str(error))} Nothing was changed.") from error
    pairs = [(file, changed[file.path]) for file in sources if file.path in changed]
    findings = findings_with(folder, changed, day())
    if pairs and not only_check and not put_all(folder, pairs):
        raise click.ClickException("Somebody else has just changed a file. Nothing was changed; run it again.")
    for file, _ in pairs:
        say(f"{shown((folder / file.path).as_posix())}\n")
    said = "would change" if only_check else "changed"
    say(f"{len(pairs)} {'file' if len(pairs) == 1 else 'files'} {said}.\n", err=True)
    _tell(findings, folder, as_they_are=not only_check)
    raise SystemExit(1 if has_errors(list(findings)) or (only_check and pairs) else 0)


def _tell(findings: Sequence[Finding], folder: Path, *, as_they_are: bool) -> None:
    """How many findings there are of each rule; and the errors, with their places.

    Args:
        findings: of the files as they will be.
        folder: of the knowledge base.
        as_they_are: the files are so already, and their lines can be shown.
    """
    if not findings:
        return
    titles = {rule.code: rule.title for rule in rulebook().rules}
    counted = Counter((each.rule, each.severity) for each in findings)
    say("\nFound now:\n")
    for (rule, severity), count in sorted(counted.items()):
        say(f"  {rule} {severity:7} {count:4} × {shown(titles.get(rule, ''))}\n")
    errors = [each for each in findings if each.severity == "error"]
    if errors:
        where = "" if as_they_are else ", at the lines that it would have then"
        say(f"\nTo be mended by hand{where}:\n\n")
        context = context_for(folder)
        if not as_they_are:
            context = replace(context, lines=lambda _path: ())
        say(text.render(errors, context), colour=context.colour, fit=True)
