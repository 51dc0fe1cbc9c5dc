"""What comes over from a spare site, and what does not."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from kbtools.site.taken_over import TakenOver

NOW = "data/finder-abcdef012345/"
BEFORE = "data/finder-0123456789ab/"


@pytest.fixture
def site(tmp_path: Path) -> Path:
    (tmp_path / "site").mkdir()
    return tmp_path / "site"


@pytest.fixture
def spare(tmp_path: Path) -> Path:
    (tmp_path / "spare" / BEFORE).mkdir(parents=True)
    (tmp_path / "spare" / BEFORE / "root.json").write_text("[1]")
    (tmp_path / "spare" / BEFORE / "gone.json").write_text("[2]")
    return tmp_path / "spare"


def test_data_come_over_under_their_new_name_and_what_differs_goes(site: Path, spare: Path) -> None:
    over = TakenOver(site, spare, {BEFORE: NOW})
    assert over.lacking(NOW, {"root.json": b"[1]", "new.json": b"[3]"}) == {"new.json": b"[3]"}
    over.sweep()
    assert [path.relative_to(site).as_posix() for path in site.rglob("*.*")] == [f"{NOW}root.json"]
    assert not spare.exists()


def test_of_data_that_all_differ_no_folder_is_left(site: Path, spare: Path) -> None:
    over = TakenOver(site, spare, {BEFORE: NOW})
    assert over.lacking(NOW, {"root.json": b"[2]"}) == {"root.json": b"[2]"}
    over.sweep()
    assert list(site.iterdir()) == []


@pytest.mark.parametrize("name", ["../precious", "data/../../precious/", "/precious/", "data/", ""])
def test_nothing_but_data_is_moved_whatever_a_cache_says(site: Path, spare: Path, tmp_path: Path, name: str) -> None:
    (tmp_path / "precious").mkdir()
    named = str(tmp_path / name[1:]) if name.startswith("/") else name
    TakenOver(site, spare, {named: NOW}).sweep()
    assert (tmp_path / "precious").is_dir()
    assert list(site.iterdir()) == []


def test_what_the_new_site_has_stays_as_it_is(site: Path, spare: Path) -> None:
    (site / "data").mkdir()
    (site / "data" / "own.json").write_text("new")
    (spare / "data" / "own.json").write_text("old")
    (spare / "data" / "own").mkdir()
    over = TakenOver(site, spare)
    assert over.lacking("data/", {"own.json": b"old"}) == {"own.json": b"old"}
    over.sweep()
    assert (site / "data" / "own.json").read_text() == "new"
    assert [path.name for path in (site / "data").iterdir()] == ["own.json"]


def test_what_goes_meanwhile_is_not_missed(site: Path, spare: Path) -> None:
    over = TakenOver(site, spare, {BEFORE: NOW})
    shutil.rmtree(site / "data")
    assert over.lacking(NOW, {"root.json": b"[1]"}) == {"root.json": b"[1]"}
    over.sweep()
    assert list(site.iterdir()) == []
