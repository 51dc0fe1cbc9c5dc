"""A second process gives the result that the first would have, or none, and never lives on."""

from __future__ import annotations

import os
import signal
import time

import pytest

from kbtools.edges import beside as module
from kbtools.edges.beside import beside, in_turns, stream_or_none

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="no second process is to be had here")


def test_the_result_comes_back_whole() -> None:
    with beside(lambda: {"pages": ["é"] * 100_000, "by": os.getpid()}) as second:
        found = second()
    assert found is not None
    assert found["pages"] == ["é"] * 100_000
    assert found["by"] != os.getpid()


def test_what_fails_there_is_no_result_and_no_traceback(capfd: pytest.CaptureFixture[str]) -> None:
    with beside(lambda: 1 // 0) as second:
        assert second() is None
    assert capfd.readouterr() == ("", "")


def test_what_is_killed_is_no_result() -> None:
    with beside(lambda: os.kill(os.getpid(), signal.SIGKILL)) as second:
        assert second() is None


def test_a_stream_gives_one_after_the_other(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "two_at_once", lambda: True)
    with stream_or_none(lambda: ((os.getpid(), "é" * 50_000 * n) for n in range(9))) as stream:
        found = list(stream)
    assert [text for _, text in found] == ["é" * 50_000 * n for n in range(9)]
    assert os.getpid() not in {pid for pid, _ in found}


def test_a_stream_ends_where_the_second_breaks(
    monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(module, "two_at_once", lambda: True)
    with stream_or_none(lambda: (10 // n for n in (5, 2, 0, 1))) as stream:
        assert list(stream) == [2, 5]

    def killed() -> int:
        os.kill(os.getpid(), signal.SIGKILL)
        return 0

    with stream_or_none(lambda: (n if n < 2 else killed() for n in range(4))) as stream:
        assert list(stream) == [0, 1]
    assert capfd.readouterr() == ("", "")


def test_of_two_each_number_is_given_to_one() -> None:
    with in_turns(3_000) as numbers, beside(lambda: list(numbers)) as second:
        here = list(numbers)
        there = second()
    assert there is not None
    assert sorted([*here, *there]) == list(range(3_000))


def test_whoever_is_busy_leaves_the_others_to_the_other() -> None:
    def one() -> list[int]:
        return [next(numbers)]

    with in_turns(5) as numbers, beside(one) as second:
        there = second()
        assert there is not None
        assert [*there, *numbers] == [0, 1, 2, 3, 4]


def test_nobody_needs_to_read_a_stream_to_its_end(monkeypatch: pytest.MonkeyPatch) -> None:
    """The second process waits at the pipe for ever; it is ended."""
    monkeypatch.setattr(module, "two_at_once", lambda: True)
    with stream_or_none(lambda: ((os.getpid(), bytes(10_000_000)) for _ in range(9))) as stream:
        pid, _ = next(stream)
    with pytest.raises(ProcessLookupError):
        os.kill(pid, 0)


def test_an_error_in_the_first_ends_the_second() -> None:
    pids: list[int] = []
    read, write = os.pipe()

    def told() -> None:
        os.write(write, str(os.getpid()).encode())
        time.sleep(60)

    def first() -> None:
        with beside(told):
            pids.append(int(os.read(read, 20)))
            raise ValueError("first")

    with pytest.raises(ValueError, match="first"):
        first()
    with pytest.raises(ProcessLookupError):
        os.kill(pids[0], 0)


def test_what_begins_with_threads_has_no_second() -> None:
    import threading

    from kbtools.edges.beside import two_at_once

    done = threading.Event()
    thread = threading.Thread(target=done.wait)
    thread.start()
    try:
        assert not two_at_once()
    finally:
        done.set()
        thread.join()
