"""Of a site that stands there only what an edit concerns is made again; two processes make what one makes."""

from __future__ import annotations

import os
import signal
from pathlib import Path

import pytest

from kbtools.edges import beside
from kbtools.linting import by_file
from kbtools.pages.planned import Planned
from kbtools.site import finder_data, last_build, making
from kbtools.site.kept_pages import Notes
from kbtools.site.written_pages import Output, Writer
from tests.support.edited_base import Edited, lying
from tests.support.patience import eventually

ENTRY = "kb/faults/charging/lamp-stays-on.yml"
ITS_FILE = "api/v1/faults/lamp-stays-on.json"
OTHER_FILE = "api/v1/faults/lever-soft.json"


def test_only_what_an_edit_concerns_is_made_again(tmp_path: Path, made: list[str]) -> None:
    edited, site, cache = Edited(tmp_path), tmp_path / "site", tmp_path / "kept"
    edited.built(site, cache)
    whole = set(made)
    inode = (site / OTHER_FILE).stat().st_ino
    made.clear()
    edited.built(site, cache)
    assert made == []
    text = (tmp_path / ENTRY).read_text("utf-8")
    edited.write(ENTRY, text.replace("title: ", "title: Again ", 1))
    edited.built(site, cache)
    assert {"faults/lamp-stays-on/index.html", ITS_FILE} <= set(made) < whole
    assert not {"figures/index.html", "report/index.html", "rules/KB610/index.html", OTHER_FILE} & set(made)
    # Nor is it copied.
    assert (site / OTHER_FILE).stat().st_ino == inode


def test_two_processes_make_what_one_makes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, made: list[str]) -> None:
    edited = Edited(tmp_path)
    alone = edited.built(tmp_path / "one", None)
    whole = set(made)
    for module in (making, last_build, finder_data, by_file):
        monkeypatch.setattr(module, "MUCH", 2)
    for module in (making, last_build, beside):
        monkeypatch.setattr(module, "two_at_once", lambda: hasattr(os, "fork"))
    first, begun, write = os.getpid(), tmp_path / "begun", Writer.write

    def in_company(self: Writer, outputs: list[Output], notes: Notes) -> None:
        # Or the first may have made all of so few before the second runs.
        begun.touch() if os.getpid() != first else eventually(begun.exists)
        write(self, outputs, notes)

    monkeypatch.setattr(Writer, "write", in_company)
    made.clear()
    assert edited.built(tmp_path / "two", tmp_path / "kept") == alone
    assert set(made) < whole
    # What the second has noted counts as well: nothing is made again.
    made.clear()
    assert edited.built(tmp_path / "two", tmp_path / "kept") == alone
    assert made == []
    # Nor after an edit, but what it concerns.
    text = (tmp_path / ENTRY).read_text("utf-8")
    edited.write(ENTRY, text.replace("title: ", "title: Again ", 1))
    nothing = edited.built(tmp_path / "three", None)
    for _ in range(2):
        made.clear()
        assert edited.built(tmp_path / "two", tmp_path / "kept") == nothing
        assert len(made) < len(whole) / 2
    assert made == []


def test_where_the_second_fails_the_first_makes_it_all(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, made: list[str]
) -> None:
    edited = Edited(tmp_path)
    first, alone = os.getpid(), edited.built(tmp_path / "one", None)
    write = Writer.write

    def killed(self: Writer, outputs: list[Output], notes: Notes) -> None:
        if os.getpid() != first:
            write(self, outputs[:1], notes)
            os.kill(os.getpid(), signal.SIGKILL)
        write(self, outputs, notes)

    monkeypatch.setattr(making, "MUCH", 2)
    monkeypatch.setattr(making, "two_at_once", lambda: hasattr(os, "fork"))
    monkeypatch.setattr(Writer, "write", killed)
    assert edited.built(tmp_path / "two", None) == alone


def test_an_alike_file_that_is_a_link_is_no_file_of_the_site(tmp_path: Path) -> None:
    """Who swaps a file for a link to the same bytes must not have a link published."""
    edited, site, cache = Edited(tmp_path), tmp_path / "site", tmp_path / "kept"
    before = edited.built(site, cache)
    away = tmp_path / "away.json"
    (site / OTHER_FILE).rename(away)
    (site / OTHER_FILE).symlink_to(away)
    assert edited.built(site, cache) == before
    assert not (site / OTHER_FILE).is_symlink()
    assert lying(site) == before


def test_parts_are_whole_groups_and_pages_of_none() -> None:
    def output(name: str, group: str) -> Planned:
        return Planned(address=name, kind="fault", make=lambda: pytest.fail("not now"), group=group)

    grouped = [output(f"{group}{number}", group) for group in "ab" for number in range(3)]
    alone = [output(f"alone{number}", "") for number in range(2)]
    assert making._parts([*grouped, *alone]) == [grouped[:3], grouped[3:], alone[:1], alone[1:]]
    many = [output(f"alone{number}", "") for number in range(2_500)]
    parts = making._parts(many)
    assert len(parts) <= 1_000
    assert [each for part in parts for each in part] == many
