"""An edit shows soon, however an editor writes files, and what is no edit causes no build."""

from __future__ import annotations

import shutil
import sys
import threading
from collections.abc import Callable
from pathlib import Path

import pytest

from kbtools.site import watching
from tests.support.live_desk import Desk, running, write
from tests.support.patience import LONG


def rename_over(desk: Desk) -> None:
    (desk.kb / ".a.txt.new").write_text("second")
    (desk.kb / ".a.txt.new").replace(desk.kb / "a.txt")


def rename_over_from_outside(desk: Desk) -> None:
    (desk.kb.parent / "a.new").write_text("second")
    (desk.kb.parent / "a.new").replace(desk.kb / "a.txt")


def write_into_new_folders(desk: Desk) -> None:
    (desk.kb / "x" / "y" / "z").mkdir(parents=True)
    (desk.kb / "x" / "y" / "z" / "b.txt").write_text("second")


def move_a_folder_in(desk: Desk) -> None:
    (desk.kb.parent / "outside").mkdir()
    (desk.kb.parent / "outside" / "b.txt").write_text("second")
    (desk.kb.parent / "outside").rename(desk.kb / "inside")


def replace_everything(desk: Desk) -> None:
    shutil.rmtree(desk.kb)
    desk.kb.mkdir()
    (desk.kb / "a.txt").write_text("second")


def exchange_the_whole_folder(desk: Desk) -> None:
    (desk.kb.parent / "kb2").mkdir()
    (desk.kb.parent / "kb2" / "a.txt").write_text("second")
    desk.kb.rename(desk.kb.parent / "kb1")
    (desk.kb.parent / "kb2").rename(desk.kb)


def write_the_single_file(desk: Desk) -> None:
    desk.config.write_text("second")


def rename_over_the_single_file(desk: Desk) -> None:
    (desk.config.parent / "config.new").write_text("second")
    (desk.config.parent / "config.new").replace(desk.config)


EDITS = [
    *(write, rename_over, rename_over_from_outside, write_into_new_folders, move_a_folder_in),
    *(replace_everything, exchange_the_whole_folder, write_the_single_file, rename_over_the_single_file),
]


@pytest.mark.parametrize("edit", EDITS)
def test_an_edit_shows_soon_and_so_does_the_next(desk: Desk, edit: Callable[[Desk], None]) -> None:
    edit(desk)
    desk.wait_for("second")
    desk.rest()
    (desk.kb / "a.txt").write_text("third")  # the watch has to survive what the first edit did
    desk.wait_for("third")


@pytest.mark.parametrize("edit", EDITS)
def test_polling_takes_over_where_the_system_refuses_more_watches(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, edit: Callable[[Desk], None]
) -> None:
    def refuse() -> None:
        raise OSError(28, "inotify watch limit reached")

    desk = Desk(tmp_path)
    monkeypatch.setattr(desk.server._watcher._observer, "on_thread_start", refuse)
    with running(desk):
        edit(desk)
        desk.wait_for("second")


@pytest.mark.parametrize("remove", ["a file", "a folder", "a folder moved away"])
def test_a_removal_shows_soon(desk: Desk, remove: str) -> None:
    (desk.kb / "sub").mkdir()
    (desk.kb / "sub" / "b.txt").write_text("extra")
    desk.wait_for("extra")
    desk.rest()
    if remove == "a file":
        (desk.kb / "sub" / "b.txt").unlink()
    elif remove == "a folder":
        shutil.rmtree(desk.kb / "sub")
    else:
        (desk.kb / "sub").rename(desk.kb.parent / "away")
    desk.wait(lambda: "extra" not in desk.get()[2])


def test_an_edit_during_a_build_leads_to_another(desk: Desk) -> None:
    once = iter([True])

    def edit_behind_the_builds_back() -> None:
        if next(once, False):
            (desk.kb / "a.txt").write_text("third")

    desk.before_build = edit_behind_the_builds_back
    (desk.kb / "a.txt").write_text("second")  # read before the edit above, so only another build can show that one
    desk.wait_for("third")


def test_many_edits_at_once_are_built_together(desk: Desk) -> None:
    begun, go_on = threading.Event(), threading.Event()

    def linger() -> None:
        begun.set()
        go_on.wait(LONG)

    before = desk.rest()
    desk.before_build = linger
    write(desk)
    assert begun.wait(LONG)
    # However long the machine takes to write them, it is while one build goes on.
    for number in range(200):
        (desk.kb / f"n{number}.txt").write_text(f"word{number}")
    go_on.set()
    desk.wait_for("word199")
    assert desk.rest() - before < 10


def test_reading_scratch_files_and_the_site_itself_cause_no_build(desk: Desk) -> None:
    def causes_no_build() -> bool:
        before = desk.rest()
        (desk.kb / "a.txt").read_text()
        for name in (".a.txt.swp", "a.txt~", "#a.txt#", "4913"):
            (desk.kb / name).write_text("scratch")
            (desk.kb / name).unlink()
        (desk.kb.parent / "unwatched.txt").write_text("x")
        (desk.root / "index.html").touch()
        return desk.rest() == before

    # Where a notice of what was done before is late, it counts against the first time; what causes builds always does.
    assert any(causes_no_build() for _ in range(4))


def test_a_server_whose_site_lies_in_a_watched_folder_does_not_build_for_ever(tmp_path: Path) -> None:
    desk = Desk(tmp_path)
    desk.server.watch(tmp_path)
    with running(desk):
        assert desk.rest() == desk.builds <= 2


def test_the_native_watcher_is_the_one_in_use() -> None:
    if sys.platform != "linux":
        pytest.skip("Linux")
    assert type(watching.Watcher(lambda: None)._observer).__name__ == "InotifyObserver"
