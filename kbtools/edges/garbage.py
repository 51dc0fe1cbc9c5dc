"""Python's collector of circular garbage, held back while a knowledge base is read and built.

Reading makes a great many objects that all stay. The collector would look through all of them again and again, for
nothing: there are no circles among them. With it, reading ten times as much takes more than ten times as long.

Making pages leaves none behind either, as long as templates import macros without context: else each page leaves a
circle of a hundred kilobytes (`tests/edges/test_garbage.py`).
"""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def held_back() -> Iterator[None]:
    """Keep the collector from running in here; outside it is as it was."""
    running = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if running:
            # Else the first thing that the collector does is to look through all that was made meanwhile.
            if gc.get_freeze_count() == 0:
                gc.freeze()
                gc.unfreeze()
            gc.enable()
