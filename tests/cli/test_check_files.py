"""`kbtools check FILE…`, and what a volunteer at a terminal sees beside the findings."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from jsonschema import Draft202012Validator

from kbtools.cli import main
from kbtools.edges.shipped import schema_files
from kbtools.report.editor_schemas import PLACES
from kbtools.rules import samples
from kbtools.text.width import fitted
from tests.support.sample_base import in_folder

FAULT = "kb/faults/charging/lamp-flickers.yml"


@pytest.fixture
def base(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return in_folder(tmp_path, monkeypatch)


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["check", *arguments])


def test_the_whole_base_is_looked_at_and_what_concerns_the_file_is_shown(base: Path) -> None:
    (base / "kb/models/wren-400.yml").write_text("name: Wren 400\nyears: 2003\ncolour: red\n", "utf-8")
    of_fault, of_folder = run(FAULT), run("kb/models", FAULT)
    # The years of the entry are outside those of the model, which another file says.
    assert "KB401" in of_fault.stdout
    assert "KB202" not in of_fault.stdout
    assert of_fault.exit_code == 1
    assert "in other files" in of_fault.stderr
    assert "KB202" in of_folder.stdout


def test_an_entry_without_a_mistake_is_told_as_owners_will_read_it(base: Path) -> None:
    said = run(FAULT)
    assert said.exit_code == 0
    for words in (
        f"all {len(samples.FILES)} files",
        "ride-to-workshop",
        "Pull the plug and look for green terminals.",
        "Corroded plug at the regulator",
        "EUR",
    ):
        assert words in said.stdout
    assert "Published" not in run("kb/cases").stdout
    draft = run("kb/faults/charging/battery-flat.yml")
    assert "draft" in draft.stdout
    whole = run()
    assert "4 faults, 1 case and 5 other files" in whole.stdout
    assert "Looked at" not in run("--format", "json", FAULT).stdout


@pytest.mark.parametrize("file", ["kb/faults/charging/none.yml", "elsewhere.yml"])
def test_what_is_not_there_or_not_in_the_base_is_a_wrong_call(base: Path, file: str) -> None:
    (base / "elsewhere.yml").write_text("", "utf-8")
    said = run(file)
    assert said.exit_code == 2
    assert file in said.stderr


def test_no_summary_of_a_command_is_cut_and_no_sign_of_the_program_is_shown() -> None:
    runner = CliRunner()
    overview = runner.invoke(main, ["--help"]).stdout
    assert "..." not in overview.partition("Commands:")[2]
    assert "\\b" not in runner.invoke(main, ["evidence", "--help"]).stdout


def test_a_line_is_broken_between_words_where_the_window_ends() -> None:
    long = "    \x1b[31mred\x1b[0m " + "word " * 20 + "end\n"
    rows = fitted(long + "short\n", 40).splitlines()
    assert all(len(row.replace("\x1b[31m", "").replace("\x1b[0m", "")) <= 40 for row in rows)
    assert " ".join(" ".join(rows).split()) == " ".join((long + "short").split())
    assert all(row.startswith("    ") for row in rows[:-1])
    assert fitted("x" * 90 + "\n", 40) == "x" * 90 + "\n"


def test_an_editor_is_offered_the_ids_of_the_base_and_takes_others(base: Path) -> None:
    said = CliRunner().invoke(main, ["schemas", "--for-editor", "for-editor"])
    assert said.exit_code == 0, said.output
    made = {path.name: json.loads(path.read_text("utf-8")) for path in (base / "for-editor").iterdir()}
    assert set(made) == set(schema_files())
    for name, places in PLACES.items():
        for pointer in places:
            part = made[f"{name}.schema.json"]
            for step in pointer.split("/"):
                part = part[step]
            Draft202012Validator.check_schema(part)
    component = made["fault.schema.json"]["properties"]["causes"]["items"]["properties"]["component"]
    offered = component["anyOf"][0]
    assert dict(zip(offered["enum"], offered["markdownEnumDescriptions"], strict=True))["regulator"] == "Regulator"
    assert Draft202012Validator({"anyOf": component["anyOf"]}).is_valid("a-new-one")
    # The same once more is no mistake; a folder that holds something else is left alone.
    assert CliRunner().invoke(main, ["schemas", "for-editor"]).exit_code == 0
    assert CliRunner().invoke(main, ["schemas", "kb"]).exit_code == 2
