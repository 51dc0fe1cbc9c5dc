"""A site that was replaced is set aside for the next build, where that is wanted and can be; nowhere else."""

from __future__ import annotations

import errno
import os
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from kbtools.edges import cache
from kbtools.edges import file_system as filesystem
from kbtools.edges.publish import publish
from kbtools.edges.spare import FOLDER, spare_of


def saying(word: str) -> Callable[[Path], None]:
    def build(folder: Path) -> None:
        (folder / "index.html").write_text(word)

    return build


def says(site: Path) -> str:
    return (site / "index.html").read_text()


def names_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv(cache.VARIABLE, str(tmp_path / "kept"))
    return tmp_path / "kept"


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return tmp_path / "out" / "site"


def build(site: Path, *words: str) -> None:
    for word in words:
        publish(site, saying(word), spare=spare_of(site))


@pytest.mark.parametrize("exchanges", [True, False])
def test_the_site_before_the_last_is_set_aside(
    kept: Path, site: Path, exchanges: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    if not exchanges:
        monkeypatch.setattr(filesystem, "exchange", lambda one, other: False)
    build(site, "one")
    assert not (kept / FOLDER).exists(), "nothing was replaced"
    build(site, "two", "three")
    (spare,) = (kept / FOLDER).iterdir()
    assert (spare, says(spare), says(site)) == (spare_of(site), "two", "three")
    assert names_in(site.parent) == ["site"]


def test_each_site_has_its_own(kept: Path, site: Path) -> None:
    build(site, "one", "two")
    build(site.with_name("other"), "three", "four")
    assert sorted(map(says, (kept / FOLDER).iterdir())) == ["one", "three"]


@pytest.mark.parametrize("error", [errno.EXDEV, errno.EACCES])
def test_where_it_cannot_be_the_old_site_is_removed(
    kept: Path, site: Path, error: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    rename = filesystem.rename

    def refused(source: Path, target: Path) -> None:
        if kept in target.parents:
            raise OSError(error, "refused")
        rename(source, target)

    monkeypatch.setattr(filesystem, "rename", refused)
    build(site, "one", "two")
    assert says(site) == "two"
    assert names_in(site.parent) == ["site"]
    assert list((kept / FOLDER).iterdir()) == []


def test_without_a_cache_nothing_is_set_aside(tmp_path: Path, site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(cache.VARIABLE, "off")
    assert spare_of(site) is None
    build(site, "one", "two")
    assert names_in(tmp_path) == ["out"]
    assert names_in(site.parent) == ["site"]


def test_one_that_no_build_takes_goes_after_a_month(kept: Path, site: Path) -> None:
    others = [site.with_name("old"), site.with_name("newer")]
    for other, days in zip(others, (31, 29), strict=True):
        build(other, "one", "two")
        spare = spare_of(other)
        assert spare is not None
        os.utime(spare, (time.time() - days * 86_400,) * 2)
    build(site, "three", "four")
    assert set((kept / FOLDER).iterdir()) == {spare_of(others[1]), spare_of(site)}


def test_it_is_named_by_the_place_of_the_site(kept: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert spare_of(Path("site")) == spare_of(tmp_path / "site") != spare_of(tmp_path / "site" / "site")


@pytest.mark.parametrize("inside", [".", ".cache", "deep/er"])
def test_a_cache_in_the_site_holds_no_sites(site: Path, inside: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(cache.VARIABLE, str(site / inside))
    assert spare_of(site) is None
    monkeypatch.setenv(cache.VARIABLE, str(site.parent / "beside"))
    assert spare_of(site) is not None
