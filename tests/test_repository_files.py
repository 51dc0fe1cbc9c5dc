"""The files around the programs: what the README promises, what an editor is given, what the checks run."""

from __future__ import annotations

import datetime as dt
import json
import os
import re
import subprocess
import textwrap
import tomllib
from collections.abc import Iterator
from pathlib import Path, PurePosixPath
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from pre_commit import clientlib

from kbtools.cli import main
from kbtools.edges.folder import files
from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import schema_files, shapes, tables
from kbtools.linting.run import lint
from kbtools.reading.layout import SINGLE_FILES, place_of
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from kbtools.report import text as text_report
from kbtools.report.context import ReportContext
from tests.support.places import ROOT

KB = ROOT / "kb"
README = (ROOT / "README.md").read_text("utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")
ROOMS = "\n".join(path.read_text("utf-8") for path in sorted((ROOT / "kbtools").glob("*/README.md")))
CI = (ROOT / ".ci" / "run").read_text("utf-8")
SCHEMAS = schema_files()
SETTINGS: dict[str, Any] = json.loads((ROOT / ".vscode" / "settings.json").read_text("utf-8"))
EDITOR_SCHEMAS: dict[str, str] = SETTINGS["yaml.schemas"]
ENTRY_FILES = sorted(path.relative_to(ROOT).as_posix() for path in KB.rglob("*.yml"))
FIRST_ENTRY = "faults/lighting/horn-quiet-in-rain.yml"
TODAY = dt.date(2026, 6, 1)
WORKFLOWS = ROOT / ".github" / "workflows"
FLOWS = sorted(path.name for path in WORKFLOWS.iterdir())
LOCK = ROOT / ".github" / "requirements-publish.txt"
MAY_WRITE = {"deploy": {"pages", "id-token"}, "propose": {"contents", "pull-requests"}}
"""The only jobs that may change anything, and what."""

Document = dict[str, Any]


def blocks(language: str) -> list[str]:
    """The README's fenced blocks in a language, without their indentation, and without settings of other programs."""
    return [block for block in all_blocks(language) if "repos:" not in block and "pre-commit" not in block]


def all_blocks(language: str) -> list[str]:
    """The README's fenced blocks in a language, without their indentation."""
    found = re.findall(rf"^( *)```{language}\n(.*?)^\1```$", README, re.MULTILINE | re.DOTALL)
    return [textwrap.dedent(body) for _, body in found]


def commands() -> tuple[str, str]:
    """The README's two commands: build the demo, run the tests."""
    build, test = (block.strip() for block in blocks("sh"))
    return build, test


def checked_with(entry: str) -> str:
    """What `kbtools check` says of the demo with one more entry."""
    more = SourceFile(path=FIRST_ENTRY, data=entry.encode())
    context = ReportContext(lines=lambda path: entry.splitlines() if path == FIRST_ENTRY else ())
    return text_report.render(lint(read([*files(KB), more], shapes(), tables=tables()), rulebook(), TODAY), context)


# README


def test_the_two_commands_are_one_line_each() -> None:
    build, test = commands()
    assert "\n" not in build + test
    assert build.endswith("kbtools build")
    assert test.endswith("pytest")


def test_the_first_entry_of_the_readme_is_new_and_has_no_finding() -> None:
    (entry,) = blocks("yaml")
    assert not (KB / FIRST_ENTRY).exists()
    assert PurePosixPath(FIRST_ENTRY).name in README
    assert f"kb/{PurePosixPath(FIRST_ENTRY).parent}" in README
    assert checked_with(entry) == checked_with_nothing()


def checked_with_nothing() -> str:
    return text_report.render(lint(read(list(files(KB)), shapes(), tables=tables()), rulebook(), TODAY))


def test_the_finding_of_the_readme_is_what_is_printed() -> None:
    (entry,), (shown,) = blocks("yaml"), blocks("text")
    assert entry.count("dunlin-650") == 1
    *finding, count = shown.splitlines()
    assert count == "1 error in 1 file. About a rule: kbtools rules KB301"
    said = checked_with(entry.replace("dunlin-650", "dunlin-65")).splitlines()
    # Warnings about the demo, if there are any, are not the entry's.
    start = next(at for at, line in enumerate(said) if FIRST_ENTRY in line)
    assert [line.removeprefix("kb/") for line in finding] == said[start : start + len(finding)]
    assert said[start + len(finding) - 1] == ""


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md", "CHANGELOG.md"])
def test_links_to_files_lead_somewhere(name: str) -> None:
    text = (ROOT / name).read_text("utf-8")
    for target in re.findall(r"\]\((?!https?:)([^)#]+)[^)]*\)", text):
        assert (ROOT / target).exists(), target


def test_files_that_the_documents_name_exist() -> None:
    tops = "kbtools|schemas|site_overrides|tests|kb|[.]ci|[.]github|[.]vscode"
    named = re.findall(rf"`((?:{tops})/[\w./-]*)`", README + DEVELOPERS + ROOMS)
    assert len(named) > 20
    assert [name for name in named if name != f"kb/{FIRST_ENTRY}" and not (ROOT / name).exists()] == []


def test_every_dependency_has_its_reason() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    wanted = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    names = [re.split(r"[<>=!~ \[;]", each)[0] for each in wanted]
    cells = re.findall(r"^\| (`[^|]*`) \|", DEVELOPERS, re.MULTILINE)
    reasons = {name.lower() for cell in cells for name in re.findall("`([^`]+)`", cell)}
    assert [name for name in names if name.lower() not in reasons] == []


# Schemas, and what an editor makes of them


@pytest.mark.parametrize("path", ENTRY_FILES)
def test_an_editor_finds_the_schema_of_each_file(path: str) -> None:
    fitting = [schema for schema, glob in EDITOR_SCHEMAS.items() if PurePosixPath(path).match(glob)]
    assert fitting == [f"./schemas/{place_of(path.removeprefix('kb/')).kind}.schema.json"]


def test_an_editor_is_given_every_schema() -> None:
    kinds = {*SINGLE_FILES, "model", "fault", "case"}
    assert set(EDITOR_SCHEMAS) == {f"./schemas/{kind}.schema.json" for kind in (*kinds, "vocabulary")}
    # The front matter of a page stands in Markdown, where no editor asks for a schema.
    others = {"common.schema.json", "page.schema.json", "vocabulary.schema.json"}
    assert set(SCHEMAS) == {f"{kind}.schema.json" for kind in kinds} | others


@pytest.mark.parametrize("name", SCHEMAS)
def test_a_schema_is_one_of_2020_12(name: str) -> None:
    assert SCHEMAS[name]["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(SCHEMAS[name])


def target_of(reference: str, document: Document) -> tuple[Document, Document]:
    """What a `$ref` leads to: the part, and the document it is in."""
    name, _, pointer = reference.partition("#")
    document = SCHEMAS[name] if name else document
    part = document
    for key in pointer.strip("/").split("/") if pointer.strip("/") else []:
        part = part[key.replace("~1", "/").replace("~0", "~")]
    return part, document


def told(part: Document, document: Document, path: str, seen: tuple[str, ...] = ()) -> Iterator[tuple[str, bool]]:
    """Each property's path and whether this part of the schema has a word for it.

    Parts that hold under a condition narrow a property that another part explains, so paths are what counts.
    """
    for name, child in part.get("properties", {}).items():
        yield f"{path}/{name}", explained(child, document)
        yield from told(child, document, f"{path}/{name}", seen)
    for key in ("items", "additionalProperties"):
        if isinstance(part.get(key), dict):
            yield from told(part[key], document, f"{path}/*", seen)
    beside = [part[key] for key in ("then", "else") if key in part]
    for child in beside + [each for key in ("allOf", "anyOf", "oneOf") for each in part.get(key, [])]:
        yield from told(child, document, path, seen)
    reference = part.get("$ref")
    if reference is not None and reference not in seen:
        yield from told(*target_of(reference, document), path, (*seen, reference))


def explained(part: Document, document: Document) -> bool:
    if part.get("title") or part.get("description"):
        return True
    return "$ref" in part and explained(*target_of(part["$ref"], document))


@pytest.mark.parametrize("name", [name for name in SCHEMAS if name != "common.schema.json"])
def test_every_key_of_a_schema_explains_itself(name: str) -> None:
    rows = list(told(SCHEMAS[name], SCHEMAS[name], ""))
    assert rows
    assert {path for path, _ in rows} - {path for path, has_words in rows if has_words} == set()


# What the checks run


def test_ci_runs_the_readmes_test_command_to_the_letter_and_last() -> None:
    assert CI.rstrip().splitlines()[-1] == commands()[1]


@pytest.mark.parametrize("name", ["run", "lock"])
def test_a_script_of_ci_can_be_run_and_bash_can_read_it(name: str) -> None:
    path = ROOT / ".ci" / name
    assert os.access(path, os.X_OK)
    subprocess.run(["bash", "-n", str(path)], check=True)
    assert "set -euo pipefail" in path.read_text("utf-8")


def flow_of(name: str) -> Document:
    # BaseLoader: to YAML 1.1 the key `on` is true.
    flow: Document = yaml.load((WORKFLOWS / name).read_text("utf-8"), Loader=yaml.BaseLoader)
    return flow


def steps_of(name: str) -> list[Document]:
    return [step for job in flow_of(name)["jobs"].values() for step in job["steps"]]


def runs(name: str) -> str:
    return "\n".join(step.get("run", "") for step in steps_of(name))


@pytest.mark.parametrize("name", FLOWS)
def test_an_action_is_named_by_commit_with_its_version_beside_it(name: str) -> None:
    """A tag may be moved to other code, a commit may not (GitHub's own advice on hardening workflows)."""
    lines = [line.strip().removeprefix("- ") for line in (WORKFLOWS / name).read_text("utf-8").splitlines()]
    named = [line for line in lines if line.startswith("uses:")]
    assert len(named) == sum("uses" in step for step in steps_of(name)) > 0
    pinned = re.compile(r"uses: [\w-]+/[\w-]+@[0-9a-f]{40} # v\d+\.\d+\.\d+")
    assert [line for line in named if not pinned.fullmatch(line)] == []


def test_an_action_is_the_same_everywhere() -> None:
    named = {step["uses"] for name in FLOWS for step in steps_of(name) if "uses" in step}
    assert len(named) == len({each.split("@")[0] for each in named})


@pytest.mark.parametrize("name", FLOWS)
def test_a_job_has_the_rights_that_it_names_and_may_rarely_write(name: str) -> None:
    flow = flow_of(name)
    # None for those that name none: without this line they would have the repository's default.
    assert flow["permissions"] == {}
    for title, job in flow["jobs"].items():
        assert set(job["permissions"].values()) <= {"read", "write"}
        assert {right for right, how in job["permissions"].items() if how == "write"} == MAY_WRITE.get(title, set())


def test_a_job_that_may_write_runs_nothing_that_others_wrote() -> None:
    for name in FLOWS:
        for title, job in flow_of(name)["jobs"].items():
            commands = "\n".join(step.get("run", "") for step in job["steps"])
            assert title not in MAY_WRITE or not re.search(r"pip|python|kbtools|[.]ci/", commands)


@pytest.mark.parametrize("name", FLOWS)
def test_no_text_of_others_becomes_a_command(name: str) -> None:
    assert "${{" not in runs(name)
    # These two would run with the repository's rights on what a stranger proposes.
    assert not {"pull_request_target", "workflow_run"} & set(flow_of(name)["on"])


@pytest.mark.parametrize("name", FLOWS)
def test_a_checkout_leaves_no_token_behind(name: str) -> None:
    checkouts = [step for step in steps_of(name) if step.get("uses", "").startswith("actions/checkout@")]
    assert all(step["with"]["persist-credentials"] == "false" for step in checkouts)


# What publishing installs


def installs(name: str) -> list[str]:
    return [line.strip() for line in runs(name).splitlines() if "pip install" in line]


def test_publishing_installs_what_the_lock_names_and_nothing_else() -> None:
    packages, programs = installs("publish.yml")
    assert {"--require-hashes", LOCK.relative_to(ROOT).as_posix()} <= set(packages.split())
    # Neither packages beside the lock, nor a build backend beside it.
    assert {"--no-deps", "--no-build-isolation"} <= set(programs.split())
    assert installs("renew.yml") == [packages, programs]


def rows_of_the_lock() -> list[tuple[Requirement, list[str]]]:
    """Each row's requirement, and the digests of its files."""
    joined = LOCK.read_text("utf-8").replace("\\\n", " ")
    rows = [line for line in joined.splitlines() if line.strip() and not line.lstrip().startswith("#")]
    return [(Requirement(head), rest) for head, *rest in (re.split(r"\s+--hash=", row.strip()) for row in rows)]


def test_every_row_of_the_lock_names_one_version_and_its_digests() -> None:
    rows = rows_of_the_lock()
    assert len(rows) > 20
    for wanted, digests in rows:
        assert re.fullmatch(r"==[^*,]+", str(wanted.specifier)), wanted
        assert digests, wanted
        assert all(re.fullmatch(r"sha256:[0-9a-f]{64}", digest) for digest in digests), wanted


def test_the_lock_has_every_dependency_in_its_range() -> None:
    """If this fails, the dependencies were changed: run `.ci/lock`."""
    document = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    (python,) = {step["with"]["python-version"] for step in steps_of("publish.yml") if "setup-python" in str(step)}
    there = {"python_version": python, "python_full_version": f"{python}.0", "sys_platform": "linux"}
    rows = [row for row, _ in rows_of_the_lock() if row.marker is None or row.marker.evaluate(there)]
    locked = {canonicalize_name(row.name): next(iter(row.specifier)).version for row in rows}
    assert len(locked) == len(rows)
    for text in [*document["project"]["dependencies"], *document["build-system"]["requires"]]:
        wanted = Requirement(text)
        assert wanted.specifier.contains(locked.get(canonicalize_name(wanted.name), "0")), text


def test_the_lock_is_made_for_every_python_that_the_package_takes() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    script = (ROOT / ".ci" / "lock").read_text("utf-8")
    assert f"--python-version {project['requires-python'].removeprefix('>=')} " in script
    assert ".ci/lock" in LOCK.read_text("utf-8").splitlines()[0]


def test_the_owners_file_names_what_is_there_and_all_that_runs() -> None:
    lines = (ROOT / ".github" / "CODEOWNERS").read_text("utf-8").splitlines()
    rows = [line.split() for line in lines if line and not line.startswith("#")]
    assert [row for row in rows if len(row) < 2 or not (ROOT / row[0].lstrip("/")).exists()] == []
    assert {"/kbtools/", "/schemas/", "/site_overrides/", "/.github/", "/.ci/"} <= {row[0] for row in rows}


def test_a_pull_request_is_checked_built_and_tested_and_main_is_published() -> None:
    commands = ("kbtools check --format github", "kbtools build", ".ci/run")
    assert all(command in runs("check.yml").splitlines() for command in commands)
    assert "kbtools build" in runs("publish.yml").splitlines()


def test_errors_end_the_job_that_annotates_the_lines() -> None:
    flow = flow_of("check.yml")
    steps = flow["jobs"]["entries"]["steps"]
    (step,) = [step for step in steps if step.get("run") == "kbtools check --format github"]
    # The step's exit code is the command's: nothing stands behind it, and no failure is passed over.
    assert set(step) == {"name", "run"}
    assert flow["on"] == {"pull_request": ""}


# What pre-commit reads, held to its own reader


def test_the_hook_is_one_that_pre_commit_takes_and_its_command_exists() -> None:
    (hook,) = clientlib.load_manifest(ROOT / ".pre-commit-hooks.yaml")
    program, command = hook["entry"].split()
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    # "python": pre-commit installs this package, which brings the program.
    assert hook["language"] == "python"
    assert program in project["scripts"]
    assert command in main.commands
    assert hook["pass_filenames"] is False
    changed = ["kb/club.yml", "kb/faults/charging/a.yml", "kb/pages/index.md", "README.md", "other/kb/a.yml"]
    assert [name for name in changed if re.search(hook["files"], name)] == changed[:3]


def test_the_readmes_setting_for_pre_commit_names_this_hook(tmp_path: Path) -> None:
    (setting,) = [block for block in all_blocks("yaml") if "repos:" in block]
    (tmp_path / "config.yaml").write_text(setting, encoding="utf-8")
    config = clientlib.load_config(tmp_path / "config.yaml")
    (hook,) = clientlib.load_manifest(ROOT / ".pre-commit-hooks.yaml")
    assert [each["id"] for repo in config["repos"] for each in repo["hooks"]] == [hook["id"]]


# What is in no file


def own_files() -> list[Path]:
    """Files under version control, and new ones; without git, everything that is not a by-product."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        check=False,
    )
    if listed.returncode == 0 and listed.stdout:
        return [path for name in listed.stdout.decode().split("\0") if name and (path := ROOT / name).is_file()]
    by_products = {"__pycache__", "site", "build", "dist", "node_modules"}
    return [
        path
        for path in ROOT.rglob("*")
        if path.is_file()
        and not any(
            part in by_products or (part.startswith(".") and part not in {".ci", ".github", ".vscode"})
            for part in path.relative_to(ROOT).parts[:-1]
        )
    ]


def test_no_file_names_a_place_of_the_machine_it_was_written_on() -> None:
    # Put together here, or this file would be found.
    names = re.compile("|".join([r"(?<![\w.}-])/wor" + "k/", r"\bdesign" + r"\.md\b", r"(?<![\w.}-])/tm" + r"p/w\b"]))
    found = []
    for path in own_files():
        text = path.read_bytes().decode("utf-8", "replace")
        found += [f"{path.relative_to(ROOT)}: {match[0]}" for match in names.finditer(text)]
    assert found == []
