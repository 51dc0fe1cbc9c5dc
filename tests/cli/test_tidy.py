"""`kbtools tidy`: what it writes, what it leaves, and what it says."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kbtools.cli import main
from kbtools.rules import samples

FAULT = Path("kb/faults/charging/lamp-flickers.yml")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The sample base in `kb`, tidy; the current directory."""
    monkeypatch.chdir(tmp_path)
    for name, text in samples.FILES.items():
        path = tmp_path / "kb" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    assert tidy().exit_code == 0
    return tmp_path


def tidy(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["tidy", *arguments])


def scrambled(path: Path) -> str:
    """The file with its first key last; what it was."""
    text = path.read_text("utf-8")
    first, _, rest = text.partition("\n")
    path.write_text(f"{rest}{first}\n", "utf-8")
    return text


def everything(folder: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_what_is_not_tidy_is_named_and_written_and_then_it_is(folder: Path) -> None:
    before = scrambled(FAULT)
    FAULT.chmod(0o640)
    asked = tidy("--check")
    assert (asked.exit_code, asked.stdout) == (1, f"{FAULT}\n")
    assert "1 would change" in asked.stderr
    assert FAULT.read_text("utf-8") != before
    done = tidy()
    assert (done.exit_code, done.stdout) == (0, f"{FAULT}\n")
    assert FAULT.read_text("utf-8") == before
    assert stat.S_IMODE(FAULT.stat().st_mode) == 0o640
    kept = everything(folder)
    again = tidy("--check")
    assert (again.exit_code, again.stdout) == (0, "")
    assert everything(folder) == kept, "nothing is left lying about either"


def test_only_the_files_named(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    scrambled(FAULT)
    assert tidy("--check", "kb/club.yml").exit_code == 0
    monkeypatch.chdir("kb/faults")
    done = tidy("--kb", "..", "charging/lamp-flickers.yml")
    assert (done.exit_code, done.stdout) == (0, "charging/lamp-flickers.yml\n")


def test_what_cannot_be_read_is_named_and_left_and_the_rest_is_done(folder: Path) -> None:
    scrambled(FAULT)
    bad = {
        "kb/faults/charging/twice.yml": b"title: a\ntitle: b\n",
        "kb/models/latin.yml": b"name: Z\xfcndung\n",
        "kb/cases/2026/open.yml": b"vehicle: {model: a\n",
    }
    for name, data in bad.items():
        Path(name).write_bytes(data)
    Path("kb/faults/charging/elsewhere.yml").symlink_to(folder / "nowhere.yml")
    done = tidy()
    assert (done.exit_code, done.stdout) == (1, f"{FAULT}\n")
    assert all(f"{name} stays as it is: line " in done.stderr for name in bad if "latin" not in name)
    assert "latin.yml stays as it is: line 1: The byte 0xFC is not UTF-8" in done.stderr
    assert "elsewhere.yml stays as it is" in done.stderr
    assert "it is a link" in done.stderr
    assert {name: Path(name).read_bytes() for name in bad} == bad


def test_a_file_of_the_wrong_form_is_tidied_all_the_same(folder: Path) -> None:
    """What is unknown or misspelt is not for this command to judge."""
    FAULT.write_text("sistem: [ a ]\ntitle: 'Lamp'\n", "utf-8")
    assert tidy(str(FAULT)).exit_code == 0
    assert FAULT.read_text("utf-8") == "title: Lamp\nsistem: [a]\n"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["kb/faults/charging/none.yml"], "There is no file"),
        (["../elsewhere.yml"], "is not in the folder kb"),
        (["--kb", "none"], "does not exist"),
    ],
)
def test_called_wrongly(folder: Path, arguments: list[str], said: str) -> None:
    done = tidy(*arguments)
    assert done.exit_code == 2
    assert said in done.stderr


def test_a_page_is_no_file_for_it(folder: Path) -> None:
    Path("kb/pages").mkdir(exist_ok=True)
    Path("kb/pages/a.md").write_text("# A\n", "utf-8")
    done = tidy("kb/pages/a.md")
    assert done.exit_code == 1
    assert "no YAML file of a knowledge base" in done.stderr


def test_what_cannot_be_written_stays(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A full disk, or a folder that takes no files: the file is as it was, and nothing lies beside it."""
    scrambled(FAULT)
    before = everything(folder)

    def full(_number: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    done = tidy()
    assert done.exit_code == 1
    assert "No space left on device" in done.stderr
    assert everything(folder) == before
