"""`kbtools upgrade`: an old base comes over with its meaning, whole or not at all, and what is left to do is listed."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kbtools.cli import main
from kbtools.edges import writing
from kbtools.reading.source import SourceFile
from tests.support.places import ROOT

OLD = ROOT / "tests" / "examples" / "first-format" / "kb"
LEVER = "kb/faults/brakes-hydraulic/front-lever-comes-back.yml"
BY_HAND = (
    # Path, what stands there after the upgrade, what a curator makes of it: each one is listed.
    ("kb/systems.yml", "{id: tank-off, name", "{id: tank-off, allows: off, name", "KB543"),
    ("kb/systems.yml", "{id: front-wheel-out, name", "{id: front-wheel-out, allows: off, name", "KB543"),
    ("kb/systems.yml", "{id: rear-wheel-out, name", "{id: rear-wheel-out, allows: off, name", "KB543"),
    (
        "kb/faults/charging/battery-flat-overnight.yml",
        "Cold\n        and below 5 mA:\n",
        "Cold, and below 5 mA\n",
        "KB202",
    ),
    (LEVER, "finds: 1\n", "finds: 0.9\n", "KB542"),
    (LEVER, "  - id: quick-pumps\n", "  - id: quick-pumps\n    before_riding: true\n", "KB540"),
    (LEVER, "hard stops", "long descents", "KB561"),
)


@pytest.fixture(autouse=True)
def _old_base(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(OLD, tmp_path / "kb")
    monkeypatch.chdir(tmp_path)


def upgrade(*options: str) -> Result:
    return CliRunner().invoke(main, ["upgrade", *options])


def state() -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in Path("kb").rglob("*") if path.is_file()}


def comments() -> list[str]:
    texts = [path.read_text("utf-8") for path in sorted(Path("kb").rglob("*.yml"))]
    return [line.strip() for text in texts for line in text.splitlines() if line.lstrip().startswith("#")]


def test_an_old_base_comes_over_and_checks_after_the_edits_that_are_listed() -> None:
    before, said_before = state(), comments()
    looked = upgrade("--check")
    assert looked.exit_code == 1
    assert "would change" in looked.stderr
    assert state() == before
    done = upgrade()
    # Errors are left, for somebody to mend.
    assert done.exit_code == 1
    assert comments() == said_before
    assert "\nformat: 2\n" in Path("kb/club.yml").read_text("utf-8")
    # What the rider reads of a check hangs on it: in format 1 one without `finds` ruled its causes out.
    assert "finds: 1\n" in Path("kb/faults/charging/voltage-sags-when-wet.yml").read_text("utf-8")
    # A case says nothing of checks' power, and stays to the byte.
    same = [name for name, data in state().items() if before[name] == data]
    assert {name for name in before if "/cases/" in name or "/models/" in name} <= set(same)
    for path, there, instead, rule in BY_HAND:
        listed = f"{path}:" in done.stdout and rule in done.stdout
        assert listed, (path, rule)
        text = Path(path).read_text("utf-8")
        assert there in text, (path, there)
        Path(path).write_text(text.replace(there, instead), encoding="utf-8")
    again = upgrade()
    assert again.exit_code == 0, again.stdout
    assert "0 files changed" in again.stderr
    assert CliRunner().invoke(main, ["check"]).exit_code == 0


def test_a_newer_base_and_one_that_cannot_be_read_stay_as_they_are() -> None:
    club = Path("kb/club.yml")
    old = club.read_text("utf-8")
    for text, said in (
        (f"format: 3\n{old}", "format 3, and this version knows formats up to 2"),
        (f"format: no\n{old}", "is no number"),
        (f"{old}name: again\n", "cannot be read"),
    ):
        club.write_text(text, encoding="utf-8")
        before = state()
        done = upgrade()
        assert done.exit_code == 1
        assert said in " ".join(done.stderr.split())
        assert state() == before


def test_a_disk_that_fails_in_the_middle_leaves_all_as_it_was(monkeypatch: pytest.MonkeyPatch) -> None:
    before, put, done = state(), writing.put_in_place, []

    def failing(folder: Path, file: SourceFile, data: bytes) -> bool:
        done.append(file.path)
        if len(done) == 3:
            raise OSError(28, "No space left on device")
        return put(folder, file, data)

    monkeypatch.setattr(writing, "put_in_place", failing)
    assert upgrade().exit_code == 1
    assert len(done) == 5
    assert state() == before
