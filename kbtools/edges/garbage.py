"""Python's collector of circular garbage, held back while a knowledge base is read and built.

Reading makes a great many objects that all stay. The collector would look through all of them again and again, for
nothing: there are no circles among them. With it, reading ten times as much takes more than ten times as long.

Making pages is another thing: each template leaves a circle behind, a hundred kilobytes a page. There the collector
runs, and looks at nothing that was there before.
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
            gc.enable()


@contextmanager
def of_new_things() -> Iterator[None]:
    """Have the collector look through what is made in here, and leave alone what is there already."""
    running = gc.isenabled()
    gc.freeze()
    gc.enable()
    try:
        yield
    finally:
        gc.unfreeze()
        if not running:
            gc.disable()
