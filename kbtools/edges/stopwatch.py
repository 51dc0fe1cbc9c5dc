"""Ends work that takes the processor for too long: what runs away is stopped where it is, and its name can be told."""

from __future__ import annotations

import signal
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Final

_AGAIN: Final = 0.05
"""Seconds after which the alarm rings once more, should whoever was interrupted have passed over it."""


class TooLongError(Exception):
    """It took longer than it may."""


class _Alarm(BaseException):
    """Raised wherever the work happens to be."""


@contextmanager
def at_most(seconds: float) -> Iterator[None]:
    """Let what is done in here take so much time of the processor, and no more.

    Where the system has no alarm for that, and in other threads than the first, the time is told at the end.

    Raises:
        TooLongError: it took longer.
    """
    if not hasattr(signal, "setitimer") or threading.current_thread() is not threading.main_thread():
        started = time.thread_time()
        yield
        if time.thread_time() - started > seconds:
            raise TooLongError
        return
    with _alarm_after(seconds):
        yield


@contextmanager
def _alarm_after(seconds: float) -> Iterator[None]:
    over = False

    def ring(_signal: int, _frame: object) -> None:
        if not over:
            raise _Alarm

    before = signal.signal(signal.SIGVTALRM, ring)
    try:
        try:
            signal.setitimer(signal.ITIMER_VIRTUAL, seconds, _AGAIN)
            yield
        finally:
            over = True
            signal.setitimer(signal.ITIMER_VIRTUAL, 0)
    except _Alarm as alarm:
        over = True
        raise TooLongError from alarm
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)
