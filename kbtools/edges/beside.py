"""Has independent work done by a second process, where there is a second processor and it can be had without risk."""

from __future__ import annotations

import gc
import os
import pickle
import signal
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from typing import IO, Any, TypeVar

from kbtools.edges.room import room_for_two

T = TypeVar("T")

_NUMBER = 4
"""Bytes of one; a pipe gives them to one reader as a whole."""


def two_at_once() -> bool:
    """Whether a second process is to be had: a fork of one with threads might wait for ever for what they hold."""
    return hasattr(os, "fork") and _processors() > 1 and threading.active_count() == 1 and room_for_two()


def _processors() -> int:
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


@contextmanager
def second_or_none(work: Callable[[], T], /) -> Iterator[Callable[[], T]]:
    """Begin with a work in a second process if one is to be had; where it failed there, it is done in this one."""
    if not two_at_once():
        yield work
        return
    with beside(lambda: (work(),)) as second:

        def result() -> T:
            # In a tuple, since None may be a result as well.
            found = second()
            return work() if found is None else found[0]

        yield result


@contextmanager
def stream_or_none(work: Callable[[], Iterable[T]], /) -> Iterator[Iterator[T]]:
    """What a work gives in a second process, one after the other; nothing if there is none to be had."""
    if not two_at_once():
        yield iter(())
        return
    with _forked(lambda answer: _each(work(), answer)) as answer:
        yield _read(answer)


@contextmanager
def beside(work: Callable[[], T]) -> Iterator[Callable[[], T | None]]:
    """Begin with a work in a second process.

    Gives what waits for it: its result, or None where it failed in any way, so that who asked does it himself and meets
    the error where it can be told. If nobody waits for it in the end, it is ended.
    """
    with _forked(lambda answer: _each([work()], answer)) as answer:
        yield lambda: next(_read(answer), None)


@contextmanager
def in_turns(many: int, /) -> Iterator[Iterator[int]]:
    """The numbers below `many`, each for one of two processes: whoever has done with one is given the next.

    Args:
        many: some thousands at most, since a pipe holds no more.
    """
    read, write = os.pipe()
    with os.fdopen(write, "wb", buffering=0) as numbers:
        for number in range(many):
            numbers.write(number.to_bytes(_NUMBER, "big"))
    try:
        yield (int.from_bytes(number, "big") for number in iter(lambda: os.read(read, _NUMBER), b""))
    finally:
        os.close(read)


@contextmanager
def _forked(work: Callable[[IO[bytes]], None]) -> Iterator[IO[bytes]]:
    """Has the second process write, and gives where that can be read."""
    read, write = os.pipe()
    # The memory of both is one until somebody writes to it; Python's collector would.
    gc.freeze()
    child = os.fork()
    if child == 0:
        _work(work, read, write)
    os.close(write)
    try:
        with os.fdopen(read, "rb") as answer:
            yield answer
    finally:
        gc.unfreeze()
        with suppress(ProcessLookupError):
            os.kill(child, signal.SIGKILL)
        with suppress(ChildProcessError):
            os.waitpid(child, 0)


def _work(work: Callable[[IO[bytes]], None], read: int, write: int) -> None:
    """In the second process, which never comes back from here: what stands above it is the first one's business."""
    try:
        signal.signal(signal.SIGINT, signal.SIG_DFL)
        os.close(read)
        with os.fdopen(write, "wb") as answer:
            work(answer)
    except BaseException:
        os._exit(1)
    os._exit(0)


def _each(results: Iterable[object], answer: IO[bytes]) -> None:
    for each in results:
        pickle.dump(each, answer)
        answer.flush()


def _read(answer: IO[bytes]) -> Iterator[Any]:
    """What came through the pipe from a process of our own; a part of something, where that was ended, is nothing."""
    while True:
        try:
            yield pickle.load(answer)  # noqa: S301 - written by ourselves, above
        except (pickle.UnpicklingError, EOFError):
            return
