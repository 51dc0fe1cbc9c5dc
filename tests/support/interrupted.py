"""Runs the command line and presses Ctrl-C after so many seconds of the processor."""

from __future__ import annotations

import signal
import sys

if __name__ == "__main__":
    signal.signal(signal.SIGPROF, signal.default_int_handler)
    signal.setitimer(signal.ITIMER_PROF, float(sys.argv.pop(1)))
    from kbtools.__main__ import run

    run()
