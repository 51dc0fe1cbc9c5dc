"""Whatever became of the cache and of the site that stands there, a build gives what it gives without them."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from kbtools.edges import cache as caching
from kbtools.edges.spare import FOLDER
from tests.support.compiled_once import compiled_once
from tests.support.edited_base import Edited, Lying, differing, lying
from tests.support.edits import DIMS, LOCAL, WIDE

PAGE = "faults/lamp-flickers/index.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """The base, built twice with a cache, and once without; only to be read."""

    base: Edited
    top: Path
    """Holds the site and its cache. What is kept of a site is kept by its place, so both are always put there."""
    kept: Path
    """A copy of that folder."""
    nothing: Lying
    """What a build from nothing gives."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """Site and cache as they were built, to be spoilt."""

    site: Path
    cache: Path

    @property
    def store(self) -> Path:
        """The one file of the cache."""
        (found,) = (each for each in self.cache.iterdir() if each.suffix == ".sqlite")
        return found

    @property
    def spare(self) -> Path:
        """The site of the build before the last."""
        (found,) = (self.cache / FOLDER).iterdir()
        return found


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Built:
    folder = tmp_path_factory.mktemp("odd")
    base, top = Edited(folder / "base"), folder / "top"
    base.built(top / "site", top / "cache")
    # The first one becomes the spare, of another base.
    base.swap(DIMS, "goes yellow", "turns yellow")
    base.built(top / "site", top / "cache")
    shutil.copytree(top, folder / "kept", symlinks=True)
    return Built(base=base, top=top, kept=folder / "kept", nothing=base.built(folder / "cold", None))


@pytest.fixture
def copy(built: Built, monkeypatch: pytest.MonkeyPatch) -> Iterator[Copy]:
    compiled_once(monkeypatch)
    shutil.rmtree(built.top)
    shutil.copytree(built.kept, built.top, symlinks=True)
    yield Copy(site=built.top / "site", cache=built.top / "cache")
    for each in (built.top / "cache", *(built.top / "cache").glob("*.sqlite")):
        each.chmod(0o755)


def test_what_is_not_spoilt_is_not_made_again(built: Built, copy: Copy, made: list[str]) -> None:
    """Or all that follows would say nothing."""
    pages = {path: (copy.spare / path).stat().st_ino for path in (PAGE, "faults/lever-soft/index.html")}
    assert differing(built.base.built(copy.site, copy.cache), built.nothing) == []
    assert made == []
    assert {path: (copy.site / path).stat().st_ino for path in pages} == pages, "taken from the spare"


def cut_off(copy: Copy) -> None:
    size = copy.store.stat().st_size
    with copy.store.open("r+b") as file:
        file.truncate(size // 2)


def overwritten_in_the_middle(copy: Copy) -> None:
    size = copy.store.stat().st_size
    with copy.store.open("r+b") as file:
        file.seek(size // 3)
        file.write(b"\xff" * (size // 3))


def garbage(copy: Copy) -> None:
    copy.store.write_bytes(b"no database at all\n" * 1000)


def emptied(copy: Copy) -> None:
    copy.store.write_bytes(b"")


def a_file_where_the_folder_should_be(copy: Copy) -> None:
    shutil.rmtree(copy.cache)
    copy.cache.write_text("no folder")


def read_only(copy: Copy) -> None:
    # For anybody but root, to whom nothing is forbidden.
    copy.store.chmod(0o444)
    copy.cache.chmod(0o555)


def the_site_gone(copy: Copy) -> None:
    shutil.rmtree(copy.site)


def the_site_altered(copy: Copy) -> None:
    """Each in another way: one page of the same length, one cut off, and so on."""
    page = copy.site / PAGE
    page.write_bytes(page.read_bytes().replace(b"Charge", b"Chance"))
    for name in ("faults/lever-soft/index.html", "data", "api/v1/index.json", "sitemap.xml.gz"):
        file = copy.site / name
        for each in [file] if file.is_file() else (path for path in file.rglob("*") if path.is_file()):
            each.write_bytes(each.read_bytes()[:-20])
    (copy.site / "rules/kb301/index.html").unlink()
    shutil.rmtree(copy.site / "systems")
    for each in (copy.site / "assets").rglob("*.css"):
        each.unlink()


def the_site_with_things_put_into_it(copy: Copy) -> None:
    (copy.site / "faults/of-my-own").mkdir()
    (copy.site / "faults/of-my-own/index.html").write_text("mine")
    (copy.site / "faults/lever-soft/more.txt").write_text("mine")
    (copy.site / "empty").mkdir()


def the_site_with_links_and_folders_for_files(copy: Copy) -> None:
    outside = copy.site.parent / "outside.html"
    shutil.copy(copy.site / PAGE, outside)
    (copy.site / PAGE).unlink()
    (copy.site / PAGE).symlink_to(outside)
    (copy.site / "rules/kb302/index.html").unlink()
    (copy.site / "rules/kb302/index.html").mkdir()
    (copy.site / "rules/kb302/index.html/deep.txt").write_text("deep")
    elsewhere = copy.site.parent / "elsewhere"
    (copy.site / "models").rename(elsewhere)
    (copy.site / "models").symlink_to(elsewhere)


def the_spare_altered(copy: Copy) -> None:
    """As the site is."""
    the_site_altered(Copy(site=copy.spare, cache=copy.cache))


def the_spare_with_things_put_into_it(copy: Copy) -> None:
    the_site_with_things_put_into_it(Copy(site=copy.spare, cache=copy.cache))
    os.mkfifo(copy.spare / "faults/pipe")
    (copy.spare / "data/lie").mkdir()
    for each in copy.spare.rglob("*"):
        if each.is_dir():
            each.chmod(0o700)
    (copy.spare / "404.html").unlink()
    (copy.spare / "404.html").mkdir()


def the_spare_with_links_and_folders_for_files(copy: Copy) -> None:
    # A page with a second name is somebody's backup.
    (copy.site.parent / "second-name.html").hardlink_to(copy.spare / "faults/lever-soft/index.html")
    the_site_with_links_and_folders_for_files(Copy(site=copy.spare, cache=copy.cache))


def the_spare_of_another_mode(copy: Copy) -> None:
    for each in copy.spare.rglob("*.html"):
        each.chmod(0o600)


def the_spare_half_gone(copy: Copy) -> None:
    shutil.rmtree(copy.spare / "faults")
    shutil.rmtree(copy.spare / "data")


def a_file_where_the_spare_should_be(copy: Copy) -> None:
    place = copy.spare
    shutil.rmtree(place)
    place.write_text("no folder")


def a_killed_build_beside_it(copy: Copy) -> None:
    left = copy.site.with_name(f".{copy.site.name}.kbtools-new-0123abcd")
    left.mkdir()
    (left / "index.html").write_text("half")


SPOILING = [
    *(cut_off, read_only, the_site_altered, the_site_with_things_put_into_it),
    the_site_with_links_and_folders_for_files,
    *(the_spare_altered, the_spare_with_things_put_into_it, the_spare_with_links_and_folders_for_files),
    *(
        pytest.param(each, marks=pytest.mark.thorough)  # likewise in the tests of the cache and of publishing
        for each in (overwritten_in_the_middle, garbage, emptied, a_file_where_the_folder_should_be)
    ),
    *(pytest.param(each, marks=pytest.mark.thorough) for each in (the_site_gone, a_killed_build_beside_it)),
    *(
        pytest.param(each, marks=pytest.mark.thorough)
        for each in (the_spare_of_another_mode, the_spare_half_gone, a_file_where_the_spare_should_be)
    ),
]


@pytest.mark.parametrize("spoil", SPOILING)
def test_a_build_is_the_same_with_what_is_spoilt(built: Built, copy: Copy, spoil: Callable[[Copy], None]) -> None:
    spoil(copy)
    beside = {path.name: path.read_bytes() for path in built.top.glob("*.html")}
    assert differing(built.base.built(copy.site, copy.cache), built.nothing) == []
    assert {path.name: path.read_bytes() for path in built.top.glob("*.html")} == beside, "written through a link"


def test_without_a_cache_the_site_that_stands_there_says_nothing(built: Built, copy: Copy) -> None:
    the_site_altered(copy)
    assert differing(built.base.built(copy.site, None), built.nothing) == []


def test_another_version_of_the_program_has_another_site_in_mind(
    built: Built, copy: Copy, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its cache and its site, whose pages are all worded in another way, are nothing to go by."""
    with monkeypatch.context() as other:
        other.setattr(caching, "_running", lambda: b"another program")
        built.base.built(copy.site, copy.cache)
        for page in copy.site.rglob("*.html"):
            page.write_bytes(page.read_bytes().replace(b"</h1>", b", in another way</h1>"))
    assert differing(built.base.built(copy.site, copy.cache), built.nothing) == []


def test_another_day_and_another_base_in_the_same_place(built: Built, copy: Copy, tmp_path: Path) -> None:
    base = Edited(tmp_path / "base")
    base.day = str(int(base.day) - 24 * 3600)
    # A clock that was set back: the cache and the site are of tomorrow.
    assert differing(base.built(copy.site, copy.cache), base.built(tmp_path / "yesterday", None)) == []
    other = Edited(tmp_path / "other")
    for edit in ("an entry's text", "an entry renamed", "a new entry", "a new hand-written page"):
        LOCAL[edit](other)
    WIDE["the club's name"](other)
    assert differing(other.built(copy.site, copy.cache), other.built(tmp_path / "cold", None)) == []
    assert differing(built.base.built(copy.site, copy.cache), built.nothing) == []


def test_two_builds_at_once_share_a_cache(built: Built, copy: Copy) -> None:
    copy.store.unlink()
    environment = {**os.environ, "KBTOOLS_CACHE": str(copy.cache), "SOURCE_DATE_EPOCH": built.base.day}
    sites = [copy.site, copy.site.with_name("second")]
    command = [sys.executable, "-m", "kbtools", "build", "--kb", str(built.base.top / "kb"), "--site-dir"]
    running = [subprocess.Popen([*command, str(site)], env=environment, stdout=subprocess.DEVNULL) for site in sites]
    assert [each.wait() for each in running] == [0, 0]
    for site in sites:
        assert differing(lying(site), built.nothing) == []
        assert differing(built.base.built(site, copy.cache), built.nothing) == []
