"""Waiting and limits that hold on a busy machine: for what happens in the end, and against what runs away."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from playwright.sync_api import Page

LONG = float(os.environ.get("KBTOOLS_PATIENCE", "300"))
"""Seconds of the clock within which whatever is waited for has happened, however much else the machine does: a guard
against waiting for ever, no measurement. On a quiet machine one may set it lower."""
REASON = 30.0
"""Seconds of the processor, not of the clock: what is guarded takes well under a second, what runs away takes hours."""


def eventually(
    happened: Callable[[], bool], what: Callable[[], str] = str, pause: Callable[[float], object] = time.sleep
) -> None:
    """Wait until something has happened.

    Args:
        happened: asked again and again.
        what: says what is there instead, once it has taken too long.
        pause: waits so many seconds; where a browser has to go on meanwhile, `paused`.
    """
    until = time.monotonic() + LONG
    wait = 0.02
    while not happened():
        assert time.monotonic() < until, f"it did not happen; {what()}"
        pause(wait)
        # Who asks too often takes the processor from those who should let it happen.
        wait = min(0.25, 1.5 * wait)


def paused(page: Page) -> Callable[[float], None]:
    """How to pause while a browser's page goes on."""
    return lambda seconds: page.wait_for_timeout(1000 * seconds)


@contextmanager
def within_reason(what: object = "") -> Iterator[None]:
    """Fail if the work took more than any reason explains."""
    started = time.process_time()
    yield
    assert time.process_time() - started < REASON, what
