"""A site is put in place whole or not at all: whatever is killed, refused or read meanwhile."""

from __future__ import annotations

import contextlib
import errno
import os
import signal
import stat
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from kbtools.edges import file_system as filesystem
from kbtools.edges.publish import MARKER, PublishError, publish
from tests.support.patience import LONG, eventually

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="the tests kill processes by POSIX signals")

PAGES = 40


def site_of(word: str) -> Callable[[Path], None]:
    """A build whose every page holds `word`, so that a mixture of two builds shows."""

    def build(folder: Path) -> None:
        (folder / "index.html").write_text(word)
        for number in range(PAGES):
            page = folder / f"page-{number}" / "index.html"
            page.parent.mkdir()
            page.write_text(word)

    return build


def words_in(site: Path) -> set[str]:
    pages = list(site.rglob("index.html"))
    assert len(pages) == PAGES + 1
    return {page.read_text() for page in pages}


def beside(site: Path) -> set[str]:
    return {path.name for path in site.parent.iterdir()} - {site.name}


def can_exchange(folder: Path) -> bool:
    one, other = folder / "one", folder / "other"
    one.mkdir()
    other.mkdir()
    try:
        return filesystem.exchange(one, other)
    finally:
        one.rmdir()
        other.rmdir()


@pytest.fixture
def site(tmp_path: Path) -> Path:
    place = tmp_path / "site"
    publish(place, site_of("old"))
    return place


@pytest.fixture(params=["exchange", "two renames"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> str:
    """Both ways into place."""
    if request.param == "two renames":
        monkeypatch.setattr(filesystem, "exchange", lambda one, other: False)
    elif not can_exchange(tmp_path):
        pytest.skip("this file system cannot exchange two names")
    return str(request.param)


def test_a_new_site_replaces_the_old_one_and_leaves_nothing_beside_it(way: str, site: Path) -> None:
    (site / "gone-in-the-new-one.html").write_text("old")
    publish(site, site_of("new"))
    assert words_in(site) == {"new"}
    assert not (site / "gone-in-the-new-one.html").exists()
    assert beside(site) == set()


def test_the_first_build_makes_the_folders_above_it(tmp_path: Path) -> None:
    publish(tmp_path / "out" / "www", site_of("first"))
    assert words_in(tmp_path / "out" / "www") == {"first"}


def test_an_empty_folder_is_filled(way: str, tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    publish(tmp_path / "site", site_of("first"))
    assert words_in(tmp_path / "site") == {"first"}


def test_a_web_server_may_read_the_folder(tmp_path: Path) -> None:
    before = os.umask(0o022)
    try:
        publish(tmp_path / "site", site_of("first"))
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "site").stat().st_mode) == 0o755


def test_the_mode_that_the_maintainer_gave_the_folder_stays(way: str, site: Path) -> None:
    site.chmod(0o750)
    publish(site, site_of("new"))
    assert stat.S_IMODE(site.stat().st_mode) == 0o750


def test_hidden_files_put_there_by_hand_stay(way: str, site: Path) -> None:
    (site / ".htaccess").write_text("by hand")
    (site / ".well-known").mkdir()
    (site / ".well-known" / "security.txt").write_text("by hand")
    publish(site, site_of("new"))
    assert (site / ".htaccess").read_text() == "by hand"
    assert (site / ".well-known" / "security.txt").read_text() == "by hand"


FAILURES = [ValueError("broken"), OSError(errno.ENOSPC, "full"), KeyboardInterrupt(), SystemExit(1)]


@pytest.mark.parametrize("raised", FAILURES)
def test_a_build_that_fails_leaves_the_old_site_and_its_own_error(site: Path, raised: BaseException) -> None:
    def build(folder: Path) -> None:
        (folder / "index.html").write_text("half")
        raise raised

    with pytest.raises(type(raised)) as caught:
        publish(site, build)
    assert caught.value is raised
    assert words_in(site) == {"old"}
    assert beside(site) == set()


def test_a_build_without_a_home_page_is_not_published(site: Path) -> None:
    with pytest.raises(PublishError, match=r"no index\.html"):
        publish(site, lambda folder: None)
    assert words_in(site) == {"old"}


def test_a_second_rename_that_fails_puts_the_old_site_back(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = filesystem.rename

    def rename(source: Path, target: Path) -> None:
        if target == site and "-new-" in source.name:
            raise OSError(errno.EIO, "Input/output error")
        real(source, target)

    monkeypatch.setattr(filesystem, "exchange", lambda one, other: False)
    monkeypatch.setattr(filesystem, "rename", rename)
    with pytest.raises(PublishError, match="Input/output error"):
        publish(site, site_of("new"))
    assert words_in(site) == {"old"}
    assert beside(site) == set()


# --- killed

KILLED = """
import os, signal, sys
from pathlib import Path
from kbtools.edges import file_system as filesystem
from kbtools.edges.publish import publish

site, when = Path(sys.argv[1]), sys.argv[2]

def die():
    os.kill(os.getpid(), signal.SIGKILL)

def build(folder):
    (folder / "index.html").write_text("half")
    if when == "in the build":
        die()
    for number in range(40):
        (folder / f"page-{number}").mkdir()
        (folder / f"page-{number}" / "index.html").write_text("half")

real = filesystem.rename

def rename(source, target):
    if target == site and when == "between the renames":
        die()
    real(source, target)
    if target == site and when == "after the renames":
        die()

if when != "in the build":
    filesystem.exchange = lambda one, other: False
    filesystem.rename = rename
publish(site, build)
"""


def kill_a_run(site: Path, when: str) -> None:
    run = subprocess.run([sys.executable, "-c", KILLED, str(site), when], check=False, timeout=LONG)
    assert run.returncode == -signal.SIGKILL


def test_killed_in_the_build_the_old_site_stands_and_the_next_run_cleans_up(site: Path) -> None:
    kill_a_run(site, "in the build")
    assert words_in(site) == {"old"}
    assert beside(site)  # else the next assertion shows nothing
    publish(site, site_of("new"))
    assert words_in(site) == {"new"}
    assert beside(site) == set()


def run_and_fail(site: Path) -> None:
    """The next run, of which nothing stays but what it has put in order first."""

    def broken(folder: Path) -> None:
        raise ValueError("broken")

    with pytest.raises(ValueError, match="broken"):
        publish(site, broken)


def test_killed_between_the_renames_the_next_run_starts_from_the_old_site(site: Path) -> None:
    kill_a_run(site, "between the renames")
    assert not site.exists()
    run_and_fail(site)
    assert words_in(site) == {"old"}
    assert beside(site) == set()


def test_an_empty_folder_made_meanwhile_does_not_cost_the_site(site: Path) -> None:
    kill_a_run(site, "between the renames")
    site.mkdir()  # as a script does that wants the folder to be there
    run_and_fail(site)
    assert words_in(site) == {"old"}


def test_killed_after_the_renames_the_new_site_stands(site: Path) -> None:
    kill_a_run(site, "after the renames")
    assert words_in(site) == {"half"}
    run_and_fail(site)
    assert words_in(site) == {"half"}
    assert beside(site) == set()


def test_only_own_leftovers_are_removed(site: Path) -> None:
    others = [".site.kbtools-new-notes", ".site.kbtools-new-0123456789", ".other.kbtools-new-01234567", "site.bak"]
    for name in others:
        (site.parent / name).mkdir()
    publish(site, site_of("new"))
    assert beside(site) == set(others)


# --- two at once, and readers


def test_a_second_build_of_the_same_site_is_refused_while_the_first_runs(site: Path) -> None:
    begun, go_on = threading.Event(), threading.Event()

    def slow(folder: Path) -> None:
        begun.set()
        assert go_on.wait(LONG)
        site_of("first")(folder)

    first = threading.Thread(target=publish, args=(site, slow))
    first.start()
    try:
        assert begun.wait(LONG)
        script = (
            "import sys; from pathlib import Path; from kbtools.edges.publish import *\n"
            "try: publish(Path(sys.argv[1]), lambda folder: None)\n"
            "except PublishError as error: print(error.message); print(error.hint)"
        )
        second = subprocess.run(
            [sys.executable, "-c", script, str(site)], capture_output=True, text=True, check=True, timeout=LONG
        )
        assert "Another build" in second.stdout
        publish(site.parent / "another-site", site_of("another"))  # which is nobody's business
    finally:
        go_on.set()
        first.join()
    assert words_in(site) == {"first"}


def test_many_builds_at_once_leave_one_whole_site_and_no_lock(tmp_path: Path) -> None:
    site = tmp_path / "site"
    refused = []

    def again(word: str) -> None:
        for _ in range(15):
            try:
                publish(site, site_of(word))
            except PublishError as error:
                refused.append(error.message)

    threads = [threading.Thread(target=again, args=(word,)) for word in ("a", "b", "c")]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(words_in(site)) == 1
    assert beside(site) == set()
    assert all("Another build" in message for message in refused)


def test_a_lock_file_removed_while_it_is_opened_does_not_let_two_in(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "lock"
    first = filesystem.take_lock(path)
    assert first is not None
    held = [first]
    real = os.open

    def open_slowly(name: Path, flags: int, mode: int = 0o777) -> int:
        number = real(name, flags, mode)
        while held:
            filesystem.release_lock(path, held.pop())  # the first build ends just now
        return number

    monkeypatch.setattr(os, "open", open_slowly)
    second = filesystem.take_lock(path)
    assert second is not None
    assert filesystem.take_lock(path) is None
    filesystem.release_lock(path, second)
    assert not path.exists()


def test_a_reader_never_finds_the_home_page_missing_or_mixed(site: Path) -> None:
    if not can_exchange(site.parent):
        pytest.skip("this file system cannot exchange two names")
    stop, reads, seen = threading.Event(), [0], set()
    problems: list[OSError] = []

    def read() -> None:
        while not stop.is_set():
            try:
                seen.add((site / "index.html").read_text())
            except OSError as error:
                problems.append(error)
            reads[0] += 1

    reader = threading.Thread(target=read)
    reader.start()
    builds = 0

    def published_and_read() -> bool:
        nonlocal builds
        publish(site, site_of("new" if builds % 2 else "old"), durable=False)
        builds += 1
        return builds > 25 and reads[0] > 500 and seen == {"old", "new"}

    try:
        eventually(published_and_read, lambda: f"{builds} builds, {reads[0]} reads of {seen}", pause=lambda _: None)
    finally:
        stop.set()
        reader.join()
    assert problems == []
    assert seen == {"old", "new"}


# --- refused


def refused(site: Path, **more: list[Path]) -> PublishError:
    def never(folder: Path) -> None:
        pytest.fail("the build ran although its place is refused")

    with pytest.raises(PublishError) as caught:
        publish(site, never, keep_clear=more.get("keep_clear", []))
    assert caught.value.hint
    return caught.value


def test_a_folder_of_other_things_is_refused_and_untouched(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "index.html").write_text("a novel")
    assert "not empty" in refused(tmp_path / "site").message
    assert (tmp_path / "site" / "index.html").read_text() == "a novel"


def test_a_site_that_plain_mkdocs_built_is_replaced(tmp_path: Path) -> None:
    docs = tmp_path / "docs"
    docs.mkdir()
    (docs / "index.md").write_text("# Home\n")
    (tmp_path / "mkdocs.yml").write_text("site_name: Lore\n")
    subprocess.run([sys.executable, "-m", "mkdocs", "build", "-q"], cwd=tmp_path, check=True, timeout=LONG)
    assert not (tmp_path / "site" / MARKER).exists()
    publish(tmp_path / "site", site_of("new"))
    assert words_in(tmp_path / "site") == {"new"}


def test_a_repository_is_refused_even_where_it_holds_a_site(site: Path) -> None:
    (site / ".git").mkdir()
    assert ".git" in refused(site).message
    assert words_in(site) == {"old"}


def test_what_was_put_there_during_the_build_is_not_thrown_away(tmp_path: Path) -> None:
    site = tmp_path / "site"

    def build(folder: Path) -> None:
        site_of("new")(folder)
        site.mkdir()
        (site / "thesis.txt").write_text("the only copy")

    with pytest.raises(PublishError, match="not empty"):
        publish(site, build)
    assert (site / "thesis.txt").read_text() == "the only copy"


def test_a_file_and_a_link_are_refused(tmp_path: Path, site: Path) -> None:
    (tmp_path / "file").write_text("")
    (tmp_path / "link").symlink_to(site)
    assert "not a folder" in refused(tmp_path / "file").message
    assert "symbolic link" in refused(tmp_path / "link").message
    assert words_in(site) == {"old"}


def test_a_link_above_the_site_is_followed(tmp_path: Path) -> None:
    (tmp_path / "disk").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "disk")
    publish(tmp_path / "link" / "site", site_of("new"))
    assert words_in(tmp_path / "disk" / "site") == {"new"}


def test_a_mount_point_is_refused_with_a_way_out(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os.path, "ismount", lambda path: Path(path) == site)
    error = refused(site)
    assert "mount point" in error.message
    assert "copy" in error.hint


def test_a_mount_that_only_the_kernel_knows_of_is_explained(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # rename(2): EBUSY, "oldpath or newpath is a directory that is in use … for example as mount point"
    def exchange(one: Path, other: Path) -> bool:
        raise OSError(errno.EBUSY, os.strerror(errno.EBUSY))

    monkeypatch.setattr(filesystem, "exchange", exchange)
    with pytest.raises(PublishError) as caught:
        publish(site, site_of("new"))
    assert "copy" in caught.value.hint
    assert words_in(site) == {"old"}
    assert beside(site) == set()


@pytest.mark.parametrize("place", [".", "..", "/"])
def test_the_current_directory_and_those_above_are_refused(
    place: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    refused(Path(place))


@pytest.mark.parametrize("place", ["kb", "kb/site", "."])
def test_the_knowledge_base_is_kept_clear(place: str, tmp_path: Path) -> None:
    base = tmp_path / "club" / "kb"
    base.mkdir(parents=True)
    assert "overlap" in refused(base.parent / place, keep_clear=[base]).message
    publish(base.parent / "kb-site", site_of("new"), keep_clear=[base])  # a like name is no overlap


def test_the_knowledge_base_is_kept_clear_by_any_of_its_names(tmp_path: Path) -> None:
    base = tmp_path / "kb"
    base.mkdir()
    (tmp_path / "alias").symlink_to(base)
    assert "overlap" in refused(tmp_path / "alias" / "site", keep_clear=[base]).message
    assert "overlap" in refused(base / "site", keep_clear=[tmp_path / "alias"]).message


@contextlib.contextmanager
def ordinary_user() -> Iterator[None]:
    """Root may write anywhere; a test of permissions has to be somebody else."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(0)


def test_a_parent_that_may_not_be_written_is_explained() -> None:
    with tempfile.TemporaryDirectory() as folder:  # not tmp_path, which only its owner may enter
        parent = Path(folder)
        publish(parent / "site", site_of("old"))
        parent.chmod(0o555)
        with ordinary_user():
            error = refused(parent / "site")
        parent.chmod(0o755)
        assert str(parent) in error.hint
        assert words_in(parent / "site") == {"old"}
