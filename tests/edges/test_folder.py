"""A folder as it may really be: links that lead out, files that are no files, that go away, that nobody may read."""

from __future__ import annotations

import datetime as dt
import json
import os
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from PIL import Image

from kbtools.cli import main
from kbtools.edges.checking import findings_in
from kbtools.edges.folder import load
from kbtools.reading.limits import MOST_ENTRY_BYTES
from kbtools.rules import samples

TODAY = dt.date(2026, 6, 1)
FAULT = "faults/charging/lamp-flickers.yml"


@pytest.fixture
def base(tmp_path: Path) -> Path:
    for name, text in samples.FILES.items():
        path = tmp_path / "kb" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return tmp_path / "kb"


def found(base: Path) -> list[tuple[str, str]]:
    """Rule and file of each finding."""
    findings = findings_in(base, TODAY).findings
    return [(each.rule, each.path.removeprefix(f"{os.path.relpath(base)}/")) for each in findings]


def write(path: Path) -> None:
    """A page, or a picture of one pixel."""
    if path.suffix == ".png":
        Image.new("RGB", (1, 1)).save(path)
    else:
        path.write_text("Text.\n", "utf-8")


def message(base: Path) -> str:
    return " ".join(each.message for each in findings_in(base, TODAY).findings)


def test_the_sample_base_is_clean(base: Path) -> None:
    assert found(base) == []


def test_a_file_of_50_mb_is_refused_without_being_read(base: Path) -> None:
    big = base / FAULT
    with big.open("ab") as stream:
        stream.truncate(50_000_000)
    assert found(base) == [("KB110", FAULT)]
    assert f"{MOST_ENTRY_BYTES:,}" in message(base)


def test_the_largest_file_that_is_read_ends_in_findings_not_in_a_hang(base: Path) -> None:
    (base / FAULT).write_text("symptoms:\n" + "- [a, {b: c}]\n" * 66_000, "utf-8")
    # The only case reports a code that the fault no longer names.
    (base / "cases/2026/wren-400-0001.yml").unlink()
    assert {path for _, path in found(base)} == {FAULT}


@pytest.mark.parametrize("depth", [40, 4_000, 200_000])
@pytest.mark.parametrize("shape", ["[", "{a: ", "- "])
def test_a_deep_nesting_is_refused(base: Path, shape: str, depth: int) -> None:
    (base / FAULT).write_text(f"related: {shape * depth}\n", "utf-8")
    assert {rule for rule, _ in found(base)} <= {"KB101", "KB110"}
    assert {path for _, path in found(base)} == {FAULT}


def test_a_link_out_of_the_folder_is_not_followed(base: Path, tmp_path: Path) -> None:
    secret = tmp_path / "secret.yml"
    secret.write_text("password: hunter\n", "utf-8")
    (base / FAULT).unlink()
    (base / FAULT).symlink_to(secret)
    assert found(base) == [("KB101", FAULT)]
    assert "hunter" not in message(base)


def test_a_folder_that_is_a_link_out_is_not_followed(base: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere" / "entry.yml").write_text("title: x\n", "utf-8")
    (base / "faults" / "fuel").symlink_to(tmp_path / "elsewhere")
    assert found(base) == [("KB101", "faults/fuel")]


def test_a_link_in_a_circle_ends(base: Path) -> None:
    (base / "faults" / "charging" / "again").symlink_to(base)
    (base / "self.yml").symlink_to(base / "self.yml")
    assert {path for _, path in found(base)} == {"faults/charging/again", "self.yml"}


def test_a_link_within_the_folder_is_not_followed_either(base: Path) -> None:
    (base / "faults" / "charging" / "other.yml").symlink_to(base / FAULT)
    assert found(base) == [("KB101", "faults/charging/other.yml")]


def test_a_picture_that_is_a_link_is_told_of(base: Path) -> None:
    """Else whatever it leads to would be published under its name: a process's environment, say."""
    (base / "pages").mkdir()
    (base / "pages" / "env.png").symlink_to("/proc/self/environ")
    assert found(base) == [("KB101", "pages/env.png")]


@pytest.mark.parametrize("name", ["README.md", "wiring.png", "sub/README.md"])
def test_a_folder_among_the_pages_that_is_named_like_a_file_is_told_of(base: Path, name: str) -> None:
    (base / "pages" / name).mkdir(parents=True)
    (base / "pages" / name / "index.html").write_text("<script>alert(1)</script>", "utf-8")
    assert found(base) == [("KB101", f"pages/{name}")]


@pytest.mark.parametrize(
    "name",
    [
        *(
            "README.md",
            "sub/README.md",
            "sub/readme.md",
            "a\nb.md",
            "c:/x.md",
            "a/c: d.md",
            "a?.md",
            "a#b.png",
            " x.md",
        ),
        *("index.html.md", "404.html.md", "sw.js/x.md", "sitemap.xml.md", "Codes/x.md", "faults/x.md", "api/x.md"),
        *("assets/a.png", "build/x.md", "x" * 120 + ".md", "page.html", "run.js", "drawing.svg", " x.md"),
    ],
)
def test_a_page_or_picture_that_cannot_have_its_name_is_told_of(base: Path, name: str) -> None:
    path = base / "pages" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    write(path)
    assert [rule for rule, _ in found(base)] == ["KB109"]


@pytest.mark.parametrize(("one", "other"), [("a.md", "a/index.md"), ("a.md", "A.md"), ("b.png.md", "b.png")])
def test_two_that_would_be_written_to_one_place_are_told_of(base: Path, one: str, other: str) -> None:
    for name in (one, other):
        path = base / "pages" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        write(path)
    assert [rule for rule, _ in found(base)] == ["KB109"]


@pytest.mark.parametrize("name", ["pages/.index.md.swp", "pages/index.md~", "faults/charging/4913", "pages/Thumbs.db"])
def test_what_an_editor_leaves_behind_is_passed_over(base: Path, name: str) -> None:
    before = load(base).base.digest
    (base / name).parent.mkdir(exist_ok=True)
    (base / name).write_bytes(b"\x00" * 64)
    assert found(base) == []
    assert load(base).base.digest == before


@pytest.mark.parametrize("name", [FAULT, "club.yml", "faults/charging/new.yml", "pages/new.md"])
def test_a_folder_named_like_a_file_is_told_of(base: Path, name: str) -> None:
    path = base / name
    path.unlink(missing_ok=True)
    path.mkdir(parents=True)
    (path / "inner.yml").write_text("title: x\n", "utf-8")
    assert found(base) == [("KB101", name)]
    assert "is a folder" in message(base)


def test_a_pipe_is_not_waited_for(base: Path) -> None:
    (base / FAULT).unlink()
    os.mkfifo(base / FAULT)
    assert found(base) == [("KB101", FAULT)]


@pytest.fixture
def vanishing(monkeypatch: pytest.MonkeyPatch) -> Callable[[OSError], None]:
    """Opening the fault fails, as when it went away after the folder was listed."""

    def arrange(error: OSError) -> None:
        real = os.open

        def opened(path: str | Path, *arguments: int, **named: int) -> int:
            if Path(path).name == Path(FAULT).name:
                raise error
            return real(path, *arguments, **named)

        monkeypatch.setattr(os, "open", opened)

    return arrange


@pytest.mark.parametrize(
    "error",
    [
        FileNotFoundError(2, "No such file or directory"),
        PermissionError(13, "Permission denied"),
        OSError(5, "Input/output error"),
        OSError("no number"),
    ],
    ids=str,
)
def test_a_file_that_goes_away_or_may_not_be_read_is_a_finding(
    base: Path, vanishing: Callable[[OSError], None], error: OSError
) -> None:
    vanishing(error)
    # And no other: what refers to it is not accused.
    assert found(base) == [("KB101", FAULT)]


def test_a_folder_that_may_not_be_listed_is_a_finding(base: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = os.scandir

    def closed(path: str | Path) -> object:
        if str(path).endswith("charging"):
            raise PermissionError(13, "Permission denied", str(path))
        return real(path)

    monkeypatch.setattr(os, "scandir", closed)
    assert found(base) == [("KB101", "faults/charging")]


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may read everything; the same is tried above without it")
def test_permissions_that_forbid_reading(base: Path) -> None:
    (base / FAULT).chmod(0)
    assert found(base) == [("KB101", FAULT)]


def test_names_that_are_no_text(base: Path) -> None:
    with open(os.fsencode(base / "faults" / "charging") + b"/caf\xe9.yml", "wb") as stream:  # noqa: PTH123
        stream.write(b"title: x\n")
    done = CliRunner().invoke(main, ["check", "--kb", str(base), "--format", "json"])
    assert done.exit_code == 1
    assert {each["path"].rsplit("/", 1)[1] for each in json.loads(done.stdout)} == {"caf\\xe9.yml"}
