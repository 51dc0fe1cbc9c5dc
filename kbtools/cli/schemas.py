"""`kbtools schemas`: the schemas of the files, for editors."""

from __future__ import annotations

import json
from pathlib import Path

import click

from kbtools.cli.common import checked, kb_option
from kbtools.cli.output import misuse, say
from kbtools.edges.shipped import schema_files, shapes
from kbtools.report import issue_forms as forms
from kbtools.report.editor_schemas import settings_rows, with_ids


@click.command()
@kb_option
@click.argument("target", metavar="[FOLDER]", default=".schemas", type=click.Path(file_okay=False, path_type=Path))
@click.option("--for-editor", is_flag=True, help="With the ids of the knowledge base, which the editor then offers.")
@click.option("--issue-forms", is_flag=True, help="Instead, the forms for issues of a repository's host.")
def schemas(folder: Path, target: Path, for_editor: bool, issue_forms: bool) -> None:
    """Write the schemas of the files into FOLDER, for editors that complete and explain while one types.

    Without FOLDER they go to .schemas. Run it again when there are new ids. Below it says what an editor is told.

    With --issue-forms FOLDER gets the forms by which owners report at the repository's host: .github/ISSUE_TEMPLATE.
    """
    if issue_forms:
        _write_forms(target)
        return
    made = schema_files()
    if for_editor:
        made = with_ids(made, checked(folder).base)
    if target.exists():
        strange = sorted(path.name for path in target.iterdir() if path.name not in made)
        if strange:
            raise misuse(f"{str(target)!r} holds other files ({strange[0]}); name a folder for the schemas alone.")
    target.mkdir(parents=True, exist_ok=True)
    for name, schema in made.items():
        (target / name).write_text(json.dumps(schema, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
    rows = settings_rows(made, target.as_posix(), folder.as_posix())
    say(f"{target}: {len(made)} schemas. In .vscode/settings.json they are named like this:\n\n", fit=True)
    say(f'"yaml.schemas": {json.dumps(rows, indent=2)}\n')


def _write_forms(target: Path) -> None:
    """The forms, in the place of those that were made before."""
    target.mkdir(parents=True, exist_ok=True)
    for name, text in forms.issue_forms(shapes()["case"].schema).items():
        (target / name).write_text(text, encoding="utf-8")
        say(f"{(target / name).as_posix()}\n")
