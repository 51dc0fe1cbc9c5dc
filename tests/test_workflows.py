"""What checks, publishes and renews: `.ci`, the workflows, the lock, the hook for pre-commit."""

from __future__ import annotations

import os
import re
import subprocess
import tomllib
from pathlib import Path
from typing import Any

import pytest
import yaml
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from pre_commit import clientlib

from kbtools.cli import main
from tests.support.places import ROOT
from tests.support.readme import all_blocks, commands

CI = (ROOT / ".ci" / "run").read_text("utf-8")
WORKFLOWS = ROOT / ".github" / "workflows"
FLOWS = sorted(path.name for path in WORKFLOWS.iterdir())
LOCK = ROOT / ".github" / "requirements-publish.txt"
MAY_WRITE = {
    "deploy": {"pages", "id-token"},
    "propose": {"contents", "pull-requests"},
    "tell": {"issues"},
    "release": {"id-token"},
}
"""The only jobs that may change anything, and what."""

Document = dict[str, Any]


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
    assert installs("renew.yml") == installs("links.yml") == [packages, programs]


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


def test_a_report_becomes_a_proposal_only_by_the_label_of_who_may_sort_issues() -> None:
    flow = flow_of("report.yml")
    # A label takes the right to sort issues; the label that the form brings along is another one.
    assert flow["on"] == {"issues": {"types": ["labeled"]}}
    assert flow["jobs"]["read"]["if"] == "github.event.label.name == 'take-in'"
    form = yaml.safe_load((ROOT / ".github" / "ISSUE_TEMPLATE" / "report.yml").read_text("utf-8"))
    assert "take-in" not in form["labels"]
    # What a stranger wrote comes in through the environment only, and only where nothing may be written.
    assert "github.event.issue.body" not in str(flow["jobs"]["propose"])
    for step in flow["jobs"]["read"]["steps"]:
        named = [key for key, value in step.get("env", {}).items() if "github.event" in value]
        assert named == [] or (named == ["BODY"] and "kbtools add-report" in step["run"])
        assert "$BODY" not in step.get("run", "").replace('"$BODY"', "")
    assert "title" not in (WORKFLOWS / "report.yml").read_text("utf-8").replace("--title", "")
    # The patch may touch cases and nothing else.
    (apply,) = [line for line in runs("report.yml").splitlines() if "git apply" in line]
    assert "--include='kb/cases/*'" in apply


def test_errors_end_the_job_that_annotates_the_lines() -> None:
    flow = flow_of("check.yml")
    steps = flow["jobs"]["entries"]["steps"]
    (step,) = [step for step in steps if step.get("run") == "kbtools check --format github"]
    # The step's exit code is the command's: nothing stands behind it, and no failure is passed over.
    assert set(step) == {"name", "run"}
    assert flow["on"] == {"pull_request": ""}


# What pre-commit reads, held to its own reader


def test_the_hooks_are_such_that_pre_commit_takes_and_their_commands_exist() -> None:
    check, tidy = clientlib.load_manifest(ROOT / ".pre-commit-hooks.yaml")
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    for hook in (check, tidy):
        program, command = hook["entry"].split()
        # "python": pre-commit installs this package, which brings the program.
        assert hook["language"] == "python"
        assert program in project["scripts"]
        assert command in main.commands
    changed = ["kb/club.yml", "kb/faults/charging/a.yml", "kb/pages/index.md", "README.md", "other/kb/a.yml"]
    assert check["pass_filenames"] is False
    assert [name for name in changed if re.search(check["files"], name)] == changed[:3]
    # It is given the names of the files, and takes no others.
    assert tidy["pass_filenames"] is True
    assert [name for name in changed if re.search(tidy["files"], name)] == changed[:2]


def test_the_readmes_setting_for_pre_commit_names_these_hooks(tmp_path: Path) -> None:
    (setting,) = [block for block in all_blocks("yaml") if "repos:" in block]
    (tmp_path / "config.yaml").write_text(setting, encoding="utf-8")
    config = clientlib.load_config(tmp_path / "config.yaml")
    hooks = clientlib.load_manifest(ROOT / ".pre-commit-hooks.yaml")
    asked = [each["id"] for repo in config["repos"] for each in repo["hooks"]]
    assert sorted(asked) == sorted(hook["id"] for hook in hooks)
