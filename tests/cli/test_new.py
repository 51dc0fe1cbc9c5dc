"""`kbtools new`: what is written, what is asked, and what is never written over."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kbtools.cli import asking, main
from tests.support.places import ROOT
from tests.support.sample_base import in_folder
from tests.support.yaml_files import core_load

FAULT = ("fault", "--title", "Horn goes quiet: in the rain", "--system", "Charging")
CASE = ("case", "--model", "Wren 400", "--year", "2005", "--odometer", "40000km", "--seen", "2026-03-14")
HORN = Path("kb/faults/charging/horn-goes-quiet-in-the-rain.yml")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The sample base in `kb`; the current directory."""
    return in_folder(tmp_path, monkeypatch)


def run(*arguments: str, answers: str = "") -> Result:
    return CliRunner().invoke(main, arguments, input=answers)


def new(*arguments: str, answers: str = "") -> Result:
    return run("new", *arguments, answers=answers)


def files(folder: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_fault_from_options_is_a_draft_that_checks_and_is_tidy(folder: Path) -> None:
    shutil.copytree(ROOT / "schemas", folder / "schemas")
    models = (
        "--model",
        "Wren 400:2004-2006",
        "--symptom",
        "Horn croaks",
        "--code",
        "P0562",
        "--component",
        "Regulator",
    )
    done = new(*FAULT, *models)
    assert (done.exit_code, done.stdout) == (0, f"{HORN}\n")
    text = HORN.read_text("utf-8")
    assert text.startswith("# yaml-language-server: $schema=../../../schemas/fault.schema.json\n")
    assert (HORN.parent / "../../../schemas/fault.schema.json").is_file()
    assert core_load(text) == {
        "title": "Horn goes quiet: in the rain",
        "system": "charging",
        "applies_to": [{"model": "wren-400", "years": "2004-2006"}],
        "codes": [{"code": "P0562"}],
        "symptoms": ["Horn croaks"],
        "causes": [{"id": "regulator", "component": "regulator"}],
        "draft": True,
    }
    assert "ride_advice (level and why)" in text
    assert run("tidy", "--check", str(HORN)).exit_code == 0
    assert " error: " not in run("check").stdout


def test_without_a_terminal_all_that_is_missing_or_wrong_is_named_at_once(folder: Path) -> None:
    before = files(folder)
    done = new("case", "--model", "Wren 40", "--odometer", "far")
    assert done.exit_code == 2
    for said in ('Did you mean "wren-400"', '"far" is no distance', "Missing: --year, --seen."):
        assert said in " ".join(done.stderr.split())
    assert "Missing: --title, --system, --id." in new("fault").stderr
    assert "Missing: --name, --years, --id." in new("model").stderr
    assert files(folder) == before


def test_in_a_terminal_it_asks_until_it_can_be_read(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(asking, "at_terminal", lambda: True)
    answers = [
        "Horn goes quiet",
        "?",
        "Chargng",
        "charging",
        "Wren 400:2004-2006",
        "",
        "Croaks",
        "",
        "",
        "",
        "Horn!",
        "",
    ]
    done = new("fault", answers="\n".join(answers) + "\n")
    assert done.exit_code == 0, done.stderr
    assert "charging (Charging)" in done.stderr
    assert 'Did you mean "charging"' in done.stderr
    assert '"Horn!" cannot be an id' in done.stderr
    written = core_load(Path("kb/faults/charging/horn-goes-quiet.yml").read_text("utf-8"))
    assert (written["system"], written["symptoms"]) == ("charging", ["Croaks"])


def test_who_gives_up_leaves_nothing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(asking, "at_terminal", lambda: True)
    before = files(folder)
    assert new("fault", answers="Horn goes quiet\n").exit_code == 1
    # What is there already, and no for an answer.
    done = new("fault", answers="Charge lamp flickers\nn\n")
    assert done.exit_code == 1
    assert "lamp-flickers" in done.stderr
    assert files(folder) == before


def test_what_resembles_it_is_shown_without_a_terminal_too(folder: Path) -> None:
    done = new("fault", "--title", "Charge lamp flickers after rain", "--system", "charging")
    assert done.exit_code == 0
    assert "lamp-flickers:" in done.stderr.split("KB610")[0]


def test_a_case_takes_the_next_number_of_its_model(folder: Path) -> None:
    done = new(*CASE, "--symptom", "Horn quiet", "--fault", "lamp-flickers")
    assert (done.exit_code, done.stdout) == (0, "kb/cases/2026/wren-400-0002.yml\n")
    assert core_load(Path("kb/cases/2026/wren-400-0002.yml").read_text("utf-8")) == {
        "vehicle": {"model": "wren-400", "year": 2005, "odometer": "40000 km"},
        "seen": "2026-03-14",
        "symptoms": ["Horn quiet"],
        "fault": "lamp-flickers",
        "outcome": {"state": "open"},
        "source": {"kind": "first-hand", "title": "Member report"},
    }
    # Numbers are of a model, whatever the year: an id is there once.
    assert new(*CASE[:-1], "2025-12-31").stdout == "kb/cases/2025/wren-400-0003.yml\n"
    assert " error: " not in run("check").stdout


def test_a_model(folder: Path) -> None:
    done = new("model", "--name", "Finch 250", "--years", "1998-", "--also", "F25")
    assert (done.exit_code, done.stdout) == (0, "kb/models/finch-250.yml\n")
    assert core_load(Path("kb/models/finch-250.yml").read_text("utf-8")) == {
        "name": "Finch 250",
        "also_called": ["F25"],
        "years": "1998-",
    }
    assert " error: " not in run("check").stdout


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((*FAULT[:2], "x", *FAULT[3:], "--id", "lamp-flickers"), 'There is a fault "lamp-flickers" already'),
        (("model", "--name", "Wren 400", "--years", "2003-2012"), 'There is a model "wren-400" already'),
        ((*FAULT, "--id", "../../../x"), "cannot be an id"),
        ((*FAULT, "--model", "wren-400:never"), '"never" are no years'),
        ((*CASE[:-1], "2026-02-30"), '"2026-02-30" is no day'),
        ((*CASE, "--state", "done"), '"done" is none of open, solved, returned'),
        ((*CASE, "--fault", "lamp-flikers"), 'Did you mean "lamp-flickers"'),
        ((*FAULT, "--kb", "none"), "does not exist"),
    ],
)
def test_called_wrongly_it_writes_nothing(folder: Path, arguments: tuple[str, ...], said: str) -> None:
    before = files(folder)
    done = new(*arguments)
    assert done.exit_code == 2
    assert said in " ".join(done.stderr.split())
    assert files(folder) == before


def test_what_is_there_stays_whatever_it_is(folder: Path) -> None:
    """A file that nobody could read is no entry to the reader, and a link is not followed."""
    HORN.write_bytes(b"\xff\xfe")
    done = new(*FAULT)
    assert done.exit_code == 2
    assert HORN.read_bytes() == b"\xff\xfe"
    HORN.unlink()
    HORN.symlink_to(folder / "elsewhere.yml")
    assert new(*FAULT).exit_code == 2
    assert not (folder / "elsewhere.yml").exists()
    (folder / "outside").mkdir()
    Path("kb/cases/2025").symlink_to(folder / "outside", target_is_directory=True)
    assert new(*CASE[:-1], "2025-12-31").exit_code != 0
    assert list((folder / "outside").iterdir()) == []


def test_a_base_that_cannot_be_read_whole_takes_ids_as_they_are_written(folder: Path) -> None:
    Path("kb/systems.yml").write_text("systems: [\n", "utf-8")
    before = Path("kb/systems.yml").read_bytes()
    assert new(*FAULT[:-1], "lighting").stdout == "kb/faults/lighting/horn-goes-quiet-in-the-rain.yml\n"
    assert Path("kb/systems.yml").read_bytes() == before


def test_texts_of_the_base_do_not_act_in_the_terminal(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(asking, "at_terminal", lambda: True)
    systems = Path("kb/systems.yml")
    systems.write_text(systems.read_text("utf-8").replace("name: Charging", 'name: "A\\e[31m::error::b"'), "utf-8")
    done = new("fault", answers="Horn\n?\n")
    assert "charging (A" in done.stderr
    assert "\x1b[31m" not in done.output
    assert "::error" not in done.output
