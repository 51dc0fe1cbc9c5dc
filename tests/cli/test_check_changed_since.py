"""`kbtools check --changed-since`: what a branch touches, and what it breaks elsewhere."""

from __future__ import annotations

import json
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kbtools.cli import main
from tests.support.sample_base import in_folder

FAULT = "faults/charging/lamp-flickers.yml"
CASE = "cases/2026/wren-400-0001.yml"
Write = Callable[[str, str | None], None]


@pytest.fixture
def repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository with the sample base in `kb`, committed with one old mistake; the current directory."""
    in_folder(tmp_path, monkeypatch)
    model = tmp_path / "kb/models/wren-400.yml"
    model.write_text(model.read_text("utf-8") + "colour: red\n", "utf-8")
    git("init", "-q", "-b", "main")
    commit()
    git("switch", "-q", "-c", "entry")
    return tmp_path


def git(*arguments: str) -> None:
    name = ["-c", "user.name=test", "-c", "user.email=test@sample.example"]
    subprocess.run(["git", *name, *arguments], check=True, capture_output=True)


def commit() -> None:
    git("add", "-A")
    git("commit", "-q", "--allow-empty", "-m", "x")


def check(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["check", "--format", "json", "--changed-since", *arguments])


def found(*arguments: str) -> list[tuple[str, str]]:
    done = check(*arguments)
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    return [(each["rule"], each["path"].removeprefix("kb/")) for each in json.loads(done.stdout)]


def edit(name: str, old: str, new: str) -> None:
    path = Path("kb") / name
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")


def test_what_was_there_before_is_not_the_branchs(repository: Path) -> None:
    done = check("main")
    assert json.loads(done.stdout) == []
    assert done.exit_code == 0
    assert "Not shown: 1 " in done.stderr


@pytest.mark.parametrize("committed", [True, False])
def test_a_mistake_in_a_touched_file(repository: Path, committed: bool) -> None:
    edit(FAULT, "title:", "colour: red\ntitle:")
    if committed:
        commit()
    assert found("main") == [("KB202", FAULT)]
    assert check("main").exit_code == 1


def test_a_new_file_counts_before_it_is_committed(repository: Path) -> None:
    Path("kb/faults/charging/new.yml").write_text("title: x\ncolour: red\nsystem: charging\ndraft: true\n", "utf-8")
    assert found("main") == [("KB202", "faults/charging/new.yml")]


def test_old_mistakes_in_a_touched_file_are_shown(repository: Path) -> None:
    edit("models/wren-400.yml", "name:", "# seen\nname:")
    assert found("main") == [("KB202", "models/wren-400.yml")]


def test_what_the_branch_breaks_elsewhere(repository: Path) -> None:
    (Path("kb") / FAULT).rename(Path("kb") / FAULT.replace("flickers", "flutters"))
    assert ("KB310", CASE) in found("main")


def test_lines_that_moved_make_nothing_new(repository: Path) -> None:
    edit("models/wren-400.yml", "name:", "# one\n# two\nname:")
    commit()
    git("branch", "-f", "main", "HEAD")
    edit("systems.yml", "systems:", "# three\nsystems:")
    assert found("main") == []


def test_the_same_mistake_once_more_elsewhere_is_new(repository: Path) -> None:
    edit(CASE, "fault: lamp-flickers", "fault: lamp-gone")
    commit()
    git("branch", "-f", "main", "HEAD")
    edit("systems.yml", "Seat off", "Seat taken off")
    assert found("main") == []


def test_the_branch_is_compared_with_where_it_left(repository: Path) -> None:
    git("switch", "-q", "main")
    edit(FAULT, "title:", "colour: red\ntitle:")
    commit()
    git("switch", "-q", "entry")
    edit("words.yml" if Path("kb/words.yml").exists() else "systems.yml", "e", "e")
    # main's own mistake came after: it is not on the branch, and what main has is not what the branch deletes.
    assert found("main") == []


def test_a_base_in_the_repositorys_root(repository: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    git("mv", *[f"kb/{each.name}" for each in Path("kb").iterdir()], ".")
    commit()
    git("branch", "-f", "main", "HEAD")
    path = Path(FAULT)
    path.write_text(path.read_text("utf-8") + "colour: red\n", "utf-8")
    done = CliRunner().invoke(main, ["check", "--kb", ".", "--format", "json", "--changed-since", "main"])
    assert [each["path"] for each in json.loads(done.stdout)] == [FAULT]


@pytest.mark.parametrize("revision", ["nosuch", "--output=stolen", "-x", "main..", "", "HEAD:kb", "a b\n"])
def test_a_revision_that_is_none(repository: Path, revision: str) -> None:
    done = check(revision)
    assert done.exit_code == 2
    assert "no commit that is here" in done.stderr
    assert not Path("stolen").exists()


def test_no_repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    Path("kb").mkdir()
    done = check("main")
    assert done.exit_code == 2
    assert "cannot be compared" in done.stderr


def test_no_git(repository: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(repository))
    done = check("main")
    assert done.exit_code == 2
    assert "git is not installed" in done.stderr


def test_names_with_everything_in_them(repository: Path) -> None:
    name = 'faults/charging/ü "quoted"\ttab.yml'
    (Path("kb") / name).write_text("title: x\n", "utf-8")
    commit()
    assert {path for _, path in found("main")} == {name}
