"""The live server: it starts and ends well, tells pages what is new, and answers while a build goes on."""

from __future__ import annotations

import shutil
import signal
import socket
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from kbtools.site.earlier import Earlier
from kbtools.site.live import LiveSite, ServeError
from tests.support.live_desk import Desk, news, state_of, write
from tests.support.patience import LONG


def test_the_page_asks_and_is_told_of_a_newer_one(desk: Desk) -> None:
    before = state_of(desk)
    answers: list[dict[str, str]] = []
    asking = threading.Thread(target=lambda: answers.append(news(desk, before)))
    asking.start()
    time.sleep(0.5)
    assert answers == []
    write(desk)
    asking.join(LONG)
    assert answers
    assert answers[0]["page"] == state_of(desk)["page"] != before["page"]


def test_a_page_of_a_server_that_was_ended_is_loaded_anew(desk: Desk) -> None:
    # What it would fetch went with that server.
    assert news(desk, {**state_of(desk), "since": "0"})["page"] == ""


def test_data_of_the_last_builds_are_kept(tmp_path: Path) -> None:
    kept = Earlier(tmp_path / "site", 3, most=2)
    for moment, name in enumerate(("two", "one", "two", "three"), start=10):
        (tmp_path / "site" / "data" / name).mkdir(parents=True, exist_ok=True)
        (tmp_path / "site" / "data" / name / "root.json").write_text(name)
        kept.keep(moment)
        shutil.rmtree(tmp_path / "site")
    assert {each.name: (each / "root.json").read_text() for each in (kept.place / "data").iterdir()} == {
        "two": "two",
        "three": "three",
    }
    assert kept.oldest == 12
    kept.close()
    assert not kept.place.exists()


def test_pages_are_answered_while_a_build_goes_on(desk: Desk) -> None:
    begun, go_on = threading.Event(), threading.Event()

    def linger() -> None:
        begun.set()
        go_on.wait(LONG)

    desk.before_build = linger
    write(desk)
    assert begun.wait(LONG)
    try:
        # It would wait for `go_on` otherwise.
        assert "first" in desk.get()[2]
        assert not go_on.is_set()
    finally:
        go_on.set()
    desk.wait_for("second")


def test_a_port_in_use_is_explained(tmp_path: Path) -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        server = LiveSite("127.0.0.1", other.getsockname()[1], tmp_path / "served", "/", list)
        with pytest.raises(ServeError, match="port") as caught:
            server.serve()
        assert caught.value.hint


@pytest.mark.parametrize(("host", "port"), [("127.0.0.1", 99999), ("no-such-host.invalid", 0)])
def test_an_address_that_cannot_be_is_explained(tmp_path: Path, host: str, port: int) -> None:
    with pytest.raises(ServeError):
        LiveSite(host, port, tmp_path / "served", "/", list).bind()


def test_the_address_can_be_opened(tmp_path: Path) -> None:
    server = LiveSite("127.0.0.1", 0, tmp_path / "served", "lore", list)
    assert server.bind() == f"http://127.0.0.1:{server.server_port}/lore/"
    assert server.server_port > 0
    server.shutdown(wait=True)


def test_what_cannot_be_watched_is_refused(tmp_path: Path) -> None:
    server = LiveSite("127.0.0.1", 0, tmp_path / "served", "/", list)
    with pytest.raises(FileNotFoundError):
        server.watch(tmp_path / "no" / "such" / "folder")
    server.shutdown(wait=True)


INTERRUPTED = """
# Whoever runs the tests in the background may have told them to pass this signal by.
import signal; signal.signal(signal.SIGINT, signal.default_int_handler)
import sys, time
from pathlib import Path
from kbtools.site.live import LiveSite

def rebuild():
    print("building", flush=True)
    time.sleep(float(sys.argv[2]))
    return []

server = LiveSite("127.0.0.1", 0, Path(sys.argv[1]) / "served", "/", rebuild)
server.watch(sys.argv[1])
server.serve()
print("ended well", flush=True)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="POSIX signals")
@pytest.mark.parametrize("building", ["0", "3600"])
def test_ctrl_c_ends_it_also_in_the_middle_of_a_build(tmp_path: Path, building: str) -> None:
    command = [sys.executable, "-c", INTERRUPTED, str(tmp_path), building]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as run:
        assert run.stdout is not None
        assert run.stderr is not None
        assert run.stdout.readline() == "building\n"
        time.sleep(0.3)
        run.send_signal(signal.SIGINT)
        try:
            assert run.wait(LONG) == 0
        finally:
            run.kill()
        assert run.stdout.read() == "ended well\n"
        assert "Traceback" not in run.stderr.read()
