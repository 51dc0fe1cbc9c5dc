"""The type check and the linter of the browser code: that the job runs them, that no script escapes them, and that the
types of what Python writes are true.

Nothing here needs Node, as nothing else in the tests does; the job itself is `.ci/browser-code/run`.
"""

from __future__ import annotations

import json
import os
import re
import subprocess
from pathlib import Path
from typing import Any

import pytest
import yaml

from kbtools.browser_data.finder import finder_files
from kbtools.browser_data.plan import PlanNames, plan_data
from kbtools.browser_data.several_codes import several_files
from kbtools.checkplan.problem import problem_record
from kbtools.export.fault_json import reckon
from kbtools.pages.code_plan import code_plan, first_step
from kbtools.site.offline import PARTS
from tests.support.demo_plans import demo_index, demo_problems
from tests.support.places import ROOT

FOLDER = ROOT / ".ci" / "browser-code"
SCRIPTS = ROOT / "site_overrides" / "assets" / "js"
RUN = (FOLDER / "run").read_text("utf-8")
COMMAND = ".ci/browser-code/run"
PROJECTS = sorted(path.name for path in FOLDER.glob("tsconfig.*.json") if path.name != "tsconfig.base.json")

Settings = dict[str, Any]


def settings(name: str) -> Settings:
    found: Settings = json.loads((FOLDER / name).read_text("utf-8"))
    return found


def options(name: str) -> Settings:
    """A project's options with those that it takes over, as tsc merges them: its own win."""
    project = settings(name)
    taken = options(project["extends"]) if "extends" in project else {}
    return {**taken, **project.get("compilerOptions", {})}


def scripts_of(name: str) -> set[Path]:
    """The scripts that a project checks: its patterns, which mean the same to tsc and to pathlib."""
    project = settings(name)
    found = {path.resolve() for pattern in project["include"] for path in FOLDER.glob(pattern)}
    left_out = {path.resolve() for pattern in project.get("exclude", []) for path in FOLDER.glob(pattern)}
    return {path for path in found - left_out if path.suffix == ".js"}


def all_scripts() -> set[Path]:
    """Those of the site, and those that come with the package for its own use."""
    return {path.resolve() for folder in (SCRIPTS, ROOT / "kbtools") for path in folder.rglob("*.js")}


# The job


def test_the_job_exists_and_only_it_needs_node() -> None:
    flow = yaml.load((ROOT / ".github/workflows/check.yml").read_text("utf-8"), Loader=yaml.BaseLoader)
    callers = [job for job in flow["jobs"].values() if COMMAND in [step.get("run") for step in job["steps"]]]
    assert len(callers) == 1
    assert any(step.get("uses", "").startswith("actions/setup-node@") for step in callers[0]["steps"])
    assert not re.search(r"\b(node|npm|npx)\b", (ROOT / ".ci" / "run").read_text("utf-8"))


def test_the_script_can_be_run_and_bash_can_read_it() -> None:
    assert os.access(FOLDER / "run", os.X_OK)
    subprocess.run(["bash", "-n", str(FOLDER / "run")], check=True)
    assert "set -euo pipefail" in RUN


def test_the_script_runs_every_project_and_the_linter() -> None:
    assert {name for name in PROJECTS if name in RUN} == set(PROJECTS)
    assert "npm ci" in RUN
    (looked_at,) = re.findall(r"bin/eslint .*--max-warnings 0 (?:\\\n)? *(.*) \|\| failed=1", RUN)
    folders = [(ROOT / each).resolve() for each in looked_at.split()]
    assert [path for path in all_scripts() if not any(path.is_relative_to(each) for each in folders)] == []


# What it looks at


def test_every_script_is_type_checked() -> None:
    assert len(all_scripts()) > 30
    assert all_scripts() - set().union(*map(scripts_of, PROJECTS)) == set()


def test_scripts_have_the_ending_that_the_checks_look_for() -> None:
    others = {path.name for path in SCRIPTS.rglob("*") if path.is_file() and path.suffix != ".js"}
    assert others == set()


def test_the_core_is_checked_strictly_and_without_a_browser() -> None:
    core = "tsconfig.core.json"
    assert scripts_of(core) == {path.resolve() for path in (SCRIPTS / "core").rglob("*.js")}
    # In the libraries of the language alone there is no document, window, fetch or localStorage.
    assert all(re.fullmatch(r"ES\d{4}", library) for library in options(core)["lib"])
    assert options(core)["types"] == []


@pytest.mark.parametrize("name", PROJECTS)
def test_a_project_is_strict(name: str) -> None:
    assert {key: options(name).get(key) for key in ("strict", "checkJs", "noEmit")} == {
        "strict": True,
        "checkJs": True,
        "noEmit": True,
    }


def test_only_the_service_worker_may_leave_parameters_without_types() -> None:
    lax = {name for name in PROJECTS if options(name).get("noImplicitAny") is False}
    assert {path.relative_to(SCRIPTS.parent) for name in lax for path in scripts_of(name)} == set(map(Path, PARTS))


def test_no_script_takes_itself_out() -> None:
    ways = re.compile(r"@ts-(?:nocheck|ignore|expect-error)|eslint-(?:disable|enable)|/\* *(?:eslint|global)\b")
    assert [path.name for path in all_scripts() if ways.search(path.read_text("utf-8"))] == []
    linter = (FOLDER / "eslint.config.js").read_text("utf-8")
    assert "noInlineConfig: true" in linter
    assert 'const ALL = "site_overrides/assets/js/**/*.js";' in linter
    assert 'const LIVE = "kbtools/site/live_client.js";' in linter
    # The one place that leaves scripts out lends names to those beside the core, and holds no rule.
    assert re.findall(r"ignores: .*", linter) == ["ignores: [CORE],"]


# What it believes of Python's side

INTERFACE = re.compile(r"^interface (\w+)(?: extends (\w+))? \{\n(.*?)^\}", re.MULTILINE | re.DOTALL)
KEY = re.compile(r"^  (\w+)(\??):", re.MULTILINE)
Keys = tuple[frozenset[str], frozenset[str]]
"""Those that must be there, and those that may."""


def typed() -> dict[str, Keys]:
    """The keys of each interface in `data.d.ts`."""
    found: dict[str, Keys] = {}
    for name, parent, body in INTERFACE.findall((FOLDER / "data.d.ts").read_text("utf-8")):
        keys = KEY.findall(body)
        must, may = found[parent] if parent else (frozenset(), frozenset())
        found[name] = (
            must | {key for key, optional in keys if not optional},
            may | {key for key, _ in keys},
        )
    return found


@pytest.fixture(scope="module")
def written() -> dict[str, list[Settings]]:
    """By interface what Python writes of it for the demo, read from JSON as a browser does."""
    index = demo_index()
    begins = {each.id: first_step(each, index, reckon(each, index)) for each in index.published.values()}
    problems = demo_problems(index)
    finder = {name: json.loads(file) for name, file in finder_files(index.base, 2026, ["contribute/"]).items()}
    several = json.loads(json.dumps(several_files(index)))
    names = PlanNames(causes={}, checks={}, tasks={}, access={})
    plans = [plan_data(index.published[fault], problem, names, index) for fault, problem in problems.items()]
    solved = json.loads(json.dumps([problem_record(problem) for problem in problems.values()]))
    root, codes = finder["root.json"], several["root.json"]
    files = [file for name, file in several.items() if name != "root.json"]
    faults = [fault for file in files for fault in file["faults"]]
    evidence = [each["evidence"] for each in [*solved, *faults]]
    checks = [check for problem in solved for check in problem["checks"]]
    return {
        "CodeFormat": root["formats"] + codes["formats"],
        "CodeTables": [root["tables"], codes["tables"]],
        "Evidence": evidence,
        "EvidenceCause": [cause for each in evidence for cause in each["causes"]],
        "PlanProblem": solved,
        "PlanAccess": [job for problem in solved for job in problem["access"]],
        "PlanFix": [fix for problem in solved for fix in problem["fixes"]],
        "PlanJudgement": [check for check in checks if check["good"] is None],
        "PlanReading": [check for check in checks if check["good"] is not None],
        "PlanPage": plans,
        "FinderRoot": [root],
        "FinderModel": root["models"],
        "FinderEntry": [entry for name, file in finder.items() if name.startswith("entries/") for entry in file],
        "SeveralRoot": [codes],
        "RideRow": codes["rides"],
        "SeveralFile": files,
        "SeveralFault": faults,
        "CodeData": [dict(code_plan(each, [], index, begins).data) for each in list(index.codes_by_slug.values())[:3]],
    }


def test_the_types_have_the_keys_that_python_writes(written: dict[str, list[Settings]]) -> None:
    types = typed()
    assert all(written.values())
    for name, records in written.items():
        must, may = types[name]
        assert [row for row in records if not must <= set(row) <= may] == [], name


def test_a_reading_has_two_sides_and_any_other_check_one(written: dict[str, list[Settings]]) -> None:
    assert all(set(check["outcomes"]) == {"bad"} for check in written["PlanJudgement"])
    assert all(set(check["outcomes"]) == {"low", "high"} for check in written["PlanReading"])


def test_what_a_script_looks_for_stands_in_a_template() -> None:
    """The attributes and ids of the selectors in `page.d.ts`; an element that a script makes counts as well."""
    pages = (FOLDER / "page.d.ts").read_text("utf-8")
    names = re.findall(r'^  ["\'](?:\[|#)([\w-]+)\]?["\']:', pages, re.MULTILINE)
    folders = [ROOT / "kbtools" / "templates", ROOT / "site_overrides"]
    texts = [path.read_text("utf-8") for each in folders for path in each.rglob("*") if path.suffix in {".html", ".js"}]
    made = re.sub(r"querySelector(?:All)?\([^)]*\)", "", "\n".join(texts))
    assert len(names) > 30
    assert [name for name in names if not re.search(rf"(?<![\w-]){name}(?![\w-])", made)] == []


# What it installs


def test_every_package_has_its_reason_and_comes_from_the_registry() -> None:
    wanted = settings("package.json")["devDependencies"]
    cells = re.findall(r"^\| (`[^|]*`) \|", (ROOT / "DEVELOPERS.md").read_text("utf-8"), re.MULTILINE)
    assert set(wanted) <= {name for cell in cells for name in re.findall("`([^`]+)`", cell)}
    packages = {name: row for name, row in settings("package-lock.json")["packages"].items() if name}
    assert all("integrity" in row for row in packages.values())
    # Without an address npm asks the registry that is set; one that is written down must be the public one.
    addresses = [row["resolved"] for row in packages.values() if "resolved" in row]
    assert [each for each in addresses if not each.startswith("https://registry.npmjs.org/")] == []
