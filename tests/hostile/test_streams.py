"""What a command meets outside of the knowledge base: no reader, no room, Ctrl-C. A sentence; the old site stays."""

from __future__ import annotations

import errno
import hashlib
import os
import resource
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from kbtools.cli import main
from kbtools.edges import publish as publishing
from kbtools.rules.samples import FILES
from tests.support.limited import command, limited, limited_each
from tests.support.places import DEMO, ROOT

INTERRUPTED = "tests.support.interrupted"


@pytest.fixture
def base(tmp_path: Path) -> Path:
    """A folder with the sample base in it, and a site that was built before."""
    for path, content in FILES.items():
        (tmp_path / "kb" / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "kb" / path).write_text(content, encoding="utf-8")
    site = tmp_path / "site"
    (site / "faults").mkdir(parents=True)
    (site / publishing.MARKER).touch()
    (site / "index.html").write_text("the old one", encoding="utf-8")
    (site / "faults" / "index.html").write_text("the old faults", encoding="utf-8")
    return tmp_path


def state(folder: Path) -> dict[str, str]:
    """Every file below a folder, hidden ones too, by what is in it."""
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def told(done: subprocess.CompletedProcess[str], code: int, *words: str) -> None:
    """A command has ended with this code and one sentence, in which these words stand."""
    assert done.returncode == code, done.stderr
    assert "Traceback" not in done.stderr
    assert "Exception ignored" not in done.stderr
    lines = [line for line in done.stderr.splitlines() if line.strip()]
    assert len(lines) == 1, done.stderr
    assert all(word in lines[0] for word in words), done.stderr


# Output that nobody takes


def into_a_closed_pipe(*arguments: str, cwd: Path = ROOT) -> subprocess.CompletedProcess[str]:
    """The command with its output led into a pipe whose other end is shut already, as `| head -0` would."""
    reading, writing = os.pipe()
    os.close(reading)
    try:
        return command(*arguments, stdout=writing, cwd=cwd)
    finally:
        os.close(writing)


LOUD = {
    "check as json": ("check", "--format", "json"),
    "rules": ("rules",),
    "code": ("code", "P0562"),
    "plan": ("plan", "lamp-flickers"),
}
ALIKE = [pytest.param(name, marks=pytest.mark.thorough) for name in ("code", "plan")]


@pytest.mark.parametrize("name", ["check as json", "rules", *ALIKE])
def test_output_that_nobody_reads_ends_in_a_sentence(name: str, base: Path) -> None:
    told(into_a_closed_pipe(*LOUD[name], cwd=base), 1, "output ends here")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a disk that is always full is Linux's")
@pytest.mark.parametrize("name", [pytest.param("check as json", marks=pytest.mark.thorough), "rules"])
def test_output_without_room_ends_in_a_sentence(name: str, base: Path) -> None:
    with Path("/dev/full").open("w") as full:
        told(command(*LOUD[name], stdout=full, cwd=base), 1, "output ends here", "no space")


def test_a_page_of_help_into_a_closed_pipe_is_no_breakdown() -> None:
    done = into_a_closed_pipe("--help")
    assert "Traceback" not in done.stderr
    assert "Exception ignored" not in done.stderr


@pytest.mark.parametrize("closed", [">&-", "2>&-", "<&- >&- 2>&-"])
def test_streams_that_are_closed_from_the_beginning_are_no_breakdown(closed: str) -> None:
    shell = f'"{sys.executable}" -m kbtools rules KB101 {closed}'
    done = subprocess.run(["sh", "-c", shell], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert "Traceback" not in done.stderr + done.stdout


def test_findings_go_nowhere_where_the_error_stream_is_closed(base: Path) -> None:
    (base / "kb" / "club.yml").write_text("name: x\n", encoding="utf-8")
    shell = f'"{sys.executable}" -m kbtools plan lamp-flickers 2>&-'
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(["sh", "-c", shell], cwd=base, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert done.stderr == ""


# No room


def full(*_: object, **__: object) -> object:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), "/site/index.html")


PLACES = [
    *("mkdocs.utils.write_file", "mkdocs.utils.copy_file", "tempfile.mkdtemp", "kbtools.site.offline.write"),
    *("kbtools.edges.publish._put_in_place", "kbtools.edges.publish._sibling", "kbtools.edges.publish._finish"),
]


def build(base: Path, site: str = "site") -> tuple[int, str]:
    """Exit code and output of a build in this process."""
    done = CliRunner().invoke(main, ["build", "--kb", str(base / "kb"), "--site-dir", str(base / site)])
    assert isinstance(done.exception, SystemExit), done.exception
    return done.exit_code, done.output


def test_a_disk_that_fills_up_leaves_the_old_site(base: Path, thorough: bool) -> None:
    before = state(base)

    def build_on_a_full_disk(where: str) -> tuple[int, str, dict[str, str]]:
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(where, full)
            return *build(base), state(base)

    tried = PLACES[:: 1 if thorough else 2]
    for where, (code, output, after) in limited_each(build_on_a_full_disk, tried, seconds=60, megabytes=1_000).items():
        assert code == 1, (where, output)
        assert "No space left on device" in output, where
        assert "Traceback" not in output, where
        assert after == before, where


def test_a_file_system_that_refuses_to_write_on_leaves_the_old_site(
    base: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = state(base)
    monkeypatch.setenv("KBTOOLS_CACHE", "off")

    def build_small_files() -> tuple[int, str]:
        # The kernel refuses each file's bytes from here on: some pages are written by then, and some are not.
        resource.setrlimit(resource.RLIMIT_FSIZE, (12_000, 12_000))
        return build(base)

    code, output = limited(build_small_files, seconds=60, megabytes=1_000)
    assert code == 1, output
    assert "File too large" in next(line for line in output.splitlines() if line.strip())
    assert "Nothing was published" in output
    assert "Traceback" not in output
    assert state(base) == before


def test_a_folder_that_cannot_be_written_is_a_sentence(base: Path) -> None:
    (base / "file").touch()
    code, output = build(base, "file/site")
    assert code == 1
    assert "Traceback" not in output


# Ctrl-C

ABORTED = {1, -signal.SIGINT}
"""Python ends itself by the signal, which a shell shows as 130, where it came while text was run as a program."""
MOMENTS = [0.1, 1.4, *(pytest.param(moment, marks=pytest.mark.thorough) for moment in (0.5, 0.9, 3.0))]
"""Seconds of the processor after which it comes: while Python loads the programs, reads, checks, builds, publishes."""


@pytest.mark.parametrize("moment", MOMENTS)
def test_ctrl_c_ends_a_build_at_any_moment_with_the_old_site_whole(moment: float, base: Path) -> None:
    before = state(base)
    done = command("build", cwd=base, program=("-m", INTERRUPTED, str(moment)))
    if "pages in" in done.stdout:
        # It was done before, and Python about to end.
        return
    told(done, done.returncode, "Aborted!")
    assert done.returncode in ABORTED
    assert state(base) == before


@pytest.mark.parametrize("moment", [0.5, pytest.param(1.4, marks=pytest.mark.thorough)])
def test_ctrl_c_ends_a_check_at_any_moment(moment: float) -> None:
    done = command("check", "--kb", str(DEMO), program=("-m", INTERRUPTED, str(moment)))
    if done.returncode != 0 or done.stderr:
        told(done, done.returncode, "Aborted!")
        assert done.returncode in ABORTED
