"""What must not run away: a guard against hangs, which a busy machine does not set off."""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager

REASON = 30.0
"""Seconds of the processor, not of the clock: what is guarded takes well under a second, what runs away takes hours."""


@contextmanager
def within_reason(what: object = "") -> Iterator[None]:
    """Fail if the work took more than any reason explains."""
    started = time.process_time()
    yield
    assert time.process_time() - started < REASON, what
