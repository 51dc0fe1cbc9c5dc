"""`kbtools changes`, and that riding advice does not become milder on one person's word."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

import markdown
import pytest
from click.testing import CliRunner, Result

from kbtools.cli import main
from kbtools.rules import samples
from tests.cli.test_check_changed_since import commit, edit, found, git
from tests.support.sample_base import in_folder

FAULT = "faults/charging/lamp-flickers.yml"
BRAKES = samples.BRAKES_PATH


@pytest.fixture
def repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository with the sample base and a fault of the brakes in `kb`, committed; the current directory."""
    in_folder(tmp_path, monkeypatch, {**samples.FILES, BRAKES: samples.BRAKES})
    git("init", "-q", "-b", "main")
    commit()
    return tmp_path


def changes(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["changes", *arguments])


def test_nothing_changes(repository: Path) -> None:
    done = changes()
    assert done.exit_code == 0
    assert done.stdout == "Nothing changes in the published advice.\n"
    assert json.loads(changes("--format", "json").stdout) == []


def test_the_record(repository: Path) -> None:
    edit(FAULT, "level: ride-to-workshop", "level: ride-with-care")
    (row,) = json.loads(changes("--format", "json").stdout)
    assert {"fault", "state", "level", "milder", "first", "likeliest", "expected_cost", "hand_over", "because"} <= set(
        row
    )
    assert row["level"] == ["ride-to-workshop", "ride-with-care"]
    assert row["milder"] is True
    assert row["because"] == ["kb/faults/charging/lamp-flickers.yml"]
    assert row["first"] == ["check:look-at-plug", "check:look-at-plug"]
    assert row["expected_cost"][0] == row["expected_cost"][1]


def test_what_was_committed_since_a_revision(repository: Path) -> None:
    git("switch", "-q", "-c", "entry")
    edit(FAULT, "level: ride-to-workshop", "level: do-not-ride")
    commit()
    assert json.loads(changes("--format", "json").stdout) == []
    (row,) = json.loads(changes("--since", "main", "--format", "json").stdout)
    assert (row["level"], row["milder"]) == (["ride-to-workshop", "do-not-ride"], False)


@pytest.mark.parametrize(
    ("path", "old", "new", "refused"),
    [
        (BRAKES, "level: do-not-ride", "level: ride-with-care", True),
        (BRAKES, "level: do-not-ride", "level: ride-to-workshop", True),
        (FAULT, "level: ride-to-workshop", "level: ride-with-care", False),
        (FAULT, "level: ride-to-workshop", "level: do-not-ride", False),
    ],
)
def test_milder_advice_takes_a_second_reader(repository: Path, path: str, old: str, new: str, refused: bool) -> None:
    edit(path, old, new)
    assert [each for each in found("HEAD") if each[0] == "KB571"] == ([("KB571", path)] if refused else [])


@pytest.mark.parametrize(
    ("review", "refused"),
    [
        ("{on: 2026-03-15, by: curator-1, second: mechanic-1}", False),
        ("{on: 2026-03-14, by: curator-1, second: mechanic-2}", True),
        ("{on: 2026-03-15, by: curator-1}", True),
        ("{on: 2026-03-15, by: curator-1, second: curator-1}", True),
    ],
)
def test_a_second_reader_is_one_who_read_it_since(repository: Path, review: str, refused: bool) -> None:
    edit(BRAKES, "level: do-not-ride", "level: ride-with-care")
    edit(BRAKES, "{on: 2026-03-14, by: curator-1, second: mechanic-1}", review)
    assert ("KB571" in {rule for rule, _ in found("HEAD")}) is refused


def test_another_name_and_another_system_hide_nothing(repository: Path) -> None:
    edit(BRAKES, "level: do-not-ride", "level: ride-to-workshop")
    edit(BRAKES, "system: brakes", "formerly: [lever-soft]\nsystem: charging")
    Path("kb", BRAKES).rename("kb/faults/charging/soft-lever.yml")
    assert ("KB571", "faults/charging/soft-lever.yml") in found("HEAD")


def test_markdown_has_nothing_that_acts(repository: Path) -> None:
    attack = (
        "A @club [x](https://evil.example) **b** `c` #12 | d | <img src=x onerror=y> ![i](https://evil.example/i.png)"
    )
    edit(FAULT, "title: Charge lamp flickers in the rain", f"title: {json.dumps(attack)}")
    edit(FAULT, "level: ride-to-workshop", "level: ride-with-care")
    said = changes("--format", "markdown").stdout
    shown = markdown.markdown(said, extensions=["tables"])
    for tag in ("<a", "<img", "<code", "<em", "<strong>b"):
        assert tag not in shown
    assert "@" not in said
    assert "<strong>milder</strong>" in shown
    assert "<td>ride-with-care</td>" in shown


def test_a_terminal_obeys_nothing(repository: Path) -> None:
    edit(FAULT, "title: Charge lamp flickers in the rain", 'title: "Lamp \\x1b[2J"')
    edit(FAULT, "level: ride-to-workshop", "level: ride-with-care")
    done = changes()
    assert "MILDER" in done.stdout
    assert "\x1b" not in done.stdout


def test_no_revision_of_that_name(repository: Path) -> None:
    done = changes("--since", "nowhere")
    assert done.exit_code == 2
    assert "nowhere" in done.stderr


def test_no_repository(repository: Path) -> None:
    subprocess.run(["rm", "-rf", ".git"], check=True)
    done = changes()
    assert done.exit_code == 2
    assert "not a git repository" in done.stderr


def test_no_commit_yet(repository: Path) -> None:
    subprocess.run(["rm", "-rf", ".git"], check=True)
    git("init", "-q")
    done = changes()
    assert done.exit_code == 2
    assert "HEAD" in done.stderr


def test_what_cannot_be_read_is_told_on_the_side(repository: Path) -> None:
    edit(FAULT, "causes:", "causes: 5\nx:")
    done = changes("--format", "json")
    assert done.exit_code == 0
    assert json.loads(done.stdout) == []
    assert "kb/faults/charging/lamp-flickers.yml, which cannot be read as it is" in done.stderr
