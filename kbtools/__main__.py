"""`python -m kbtools`, and the program `kbtools`."""

from __future__ import annotations

import gc
import signal
import sys


def run() -> None:
    """Run the command line. Ctrl-C ends it with a word at any moment, also while it is still being loaded."""
    try:
        from kbtools.cli import main  # noqa: PLC0415

        main()
    except KeyboardInterrupt:
        sys.stderr.write("\nAborted!\n")
        sys.exit(1)
    finally:
        # What is left to do is Python's own, which would tell of it at length.
        signal.signal(signal.SIGINT, signal.SIG_DFL)
        # Python looks through all there is for circles before it ends, which takes seconds after a large base.
        gc.freeze()


if __name__ == "__main__":
    run()
