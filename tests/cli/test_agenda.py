"""`kbtools agenda`: what it prints, in each form."""

from __future__ import annotations

import json
from pathlib import Path

import markdown
import pytest
from click.testing import CliRunner, Result

from kbtools.cli import main
from tests.support.sample_base import in_folder

FAULT = Path("kb/faults/charging/lamp-flickers.yml")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The sample base in `kb`, with a third draft; the current directory."""
    in_folder(tmp_path, monkeypatch)
    Path("kb/faults/charging/new-one.yml").write_text("title: A\nsystem: charging\ndraft: true\n", "utf-8")
    return tmp_path


def agenda(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["agenda", *arguments])


def test_the_record(folder: Path) -> None:
    rows = json.loads(agenda("--format", "json").stdout)
    assert [row["subject"] for row in rows] == ["ammeter-at-zero", "battery-flat", "new-one"], "what lacks least first"
    assert rows[-1] == {
        "job": "draft",
        "subject": "new-one",
        "why": "The draft waits for applies_to, ride_advice, causes, sources and reviewed.",
        "minutes": 65,
    }


def test_the_text_counts_and_names_the_file(folder: Path) -> None:
    told = agenda().stdout
    assert told.startswith("3 jobs now, about 3 h 5 min, most useful first.\n")
    assert "Finish a draft: new-one (1 h 5 min)\n" in told
    assert "faults/charging/new-one.yml\n" in told


def test_what_does_not_check_comes_first_and_the_rest_is_told_all_the_same(folder: Path) -> None:
    """A file that nobody can read, and a text of an author that would be markup."""
    FAULT.write_bytes(b"title: \xff\n")
    Path("kb/models/odd.yml").write_text("name: '<img src=x> **b** ::error::c'\nsistem: x\n", "utf-8")
    before = FAULT.read_bytes()
    done = agenda("--format", "markdown")
    assert done.exit_code == 0
    html = markdown.markdown(done.stdout)
    assert "<img" not in html
    assert "lamp-flickers" in html
    kinds = [row["job"] for row in json.loads(agenda("--format", "json").stdout)]
    assert kinds[:2] == ["mend", "mend"]
    assert kinds[-1] == "draft"
    assert FAULT.read_bytes() == before


def test_no_folder(folder: Path) -> None:
    assert agenda("--kb", "none").exit_code == 2
