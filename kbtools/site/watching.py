"""Notices that a file of the knowledge base changed, however the editor writes it."""

from __future__ import annotations

import contextlib
import os
import threading
import warnings
from collections.abc import Callable, Sequence
from pathlib import Path

from watchdog.events import (
    DirCreatedEvent,
    DirDeletedEvent,
    DirMovedEvent,
    FileClosedEvent,
    FileCreatedEvent,
    FileDeletedEvent,
    FileModifiedEvent,
    FileMovedEvent,
    FileSystemEvent,
    FileSystemEventHandler,
)
from watchdog.observers import Observer
from watchdog.observers.api import BaseObserver, ObservedWatch
from watchdog.observers.polling import PollingObserver

_CHANGES: list[type[FileSystemEvent]] = [
    *(DirCreatedEvent, DirDeletedEvent, DirMovedEvent),
    *(FileClosedEvent, FileCreatedEvent, FileDeletedEvent, FileModifiedEvent, FileMovedEvent),
]
"""Everything but opening and reading, which the build itself does, and a folder's own timestamp."""
_POLL_SECONDS = 0.4
_SCRATCH_ENDS = ("~", ".swp", ".swx", ".tmp", ".pyc", "___jb_tmp___", "___jb_old___")
_SCRATCH_NAMES = {"__pycache__", "4913"}
"""`4913` is the file with which one common editor tries whether it may write in a folder; from memory."""


class Watcher:
    """Calls `changed` from a thread of its own, possibly many times for one edit, when something changes.

    A watched file or folder may be replaced, removed and made anew. Hidden files and editors' scratch files do not
    count, nor does anything below `leave_out`. Uses the system's own notices where it can, else looks at every file a
    few times a second.
    """

    def __init__(self, changed: Callable[[], None], *, leave_out: Sequence[Path] = ()) -> None:
        self._changed = changed
        self._leave_out = [path.resolve() for path in leave_out]
        self._observer: BaseObserver = _native()
        self._places: list[Path] = []
        self._trees: dict[Path, ObservedWatch] = {}
        self._renewed: set[Path] = set()
        self._lock = threading.Lock()

    def add(self, path: Path) -> None:
        """Watch a file, or a folder with all in it; it need not exist yet, its parent must.

        Raises `FileNotFoundError` where the parent is no folder.
        """
        place = path.absolute().parent.resolve() / path.name
        if not place.parent.is_dir():
            raise FileNotFoundError(f"{place.parent} does not exist, so nothing in it can be watched")
        if place in self._places:
            return
        self._places.append(place)
        self._attach(place)

    def start(self) -> None:
        """Begin; from here on no change is missed. Raises `OSError` where not even polling works."""
        # watchdog warns, on the terminal, of a folder that it came to watch in two ways at once; it does no harm.
        warnings.filterwarnings("ignore", category=RuntimeWarning, module=r"watchdog\.")
        try:
            self._observer.start()
        except OSError:
            # Too many watches for this system's limits, or no such service at all.
            with contextlib.suppress(RuntimeError):
                self._observer.stop()
            self._observer = PollingObserver(timeout=_POLL_SECONDS)
            self._trees.clear()
            for place in self._places:
                self._attach(place)
            self._observer.start()

    def renew(self) -> None:
        """Watch those folders anew that were removed or replaced since. To be called before their files are read."""
        with self._lock:
            renewed, self._renewed = self._renewed, set()
        for place in renewed:
            watch = self._trees.pop(place, None)
            if watch is not None:
                with contextlib.suppress(KeyError):
                    self._observer.unschedule(watch)
            with contextlib.suppress(FileNotFoundError):  # gone again: its parent tells when it is back
                self._attach_tree(place)

    def stop(self) -> None:
        """End; returns when no further call of `changed` can come."""
        self._observer.stop()
        with contextlib.suppress(RuntimeError):  # it never started
            self._observer.join()

    def _attach(self, place: Path) -> None:
        # A watched file is lost when an editor renames a new one over it; its folder sees both.
        relay = _Relay(lambda event: self._on_place(place, event))
        self._observer.schedule(relay, str(place.parent), event_filter=_CHANGES)
        self._attach_tree(place)

    def _attach_tree(self, place: Path) -> None:
        if place.is_dir():
            root = place.resolve()
            relay = _Relay(lambda event: self._on_tree(root, event))
            self._trees[place] = self._observer.schedule(relay, str(root), recursive=True, event_filter=_CHANGES)

    def _on_place(self, place: Path, event: FileSystemEvent) -> None:
        if place in _paths(event):
            if not isinstance(event, (FileClosedEvent, FileModifiedEvent)):
                with self._lock:
                    self._renewed.add(place)
            self._changed()

    def _on_tree(self, root: Path, event: FileSystemEvent) -> None:
        if any(self._counts(root, path) for path in _paths(event)):
            self._changed()

    def _counts(self, root: Path, path: Path) -> bool:
        if not path.is_relative_to(root) or any(path.is_relative_to(left) for left in self._leave_out):
            return False
        return not any(_is_scratch(name) for name in path.relative_to(root).parts)


class _Relay(FileSystemEventHandler):
    def __init__(self, tell: Callable[[FileSystemEvent], None]) -> None:
        self._tell = tell

    def on_any_event(self, event: FileSystemEvent) -> None:
        if type(event) in _CHANGES:
            self._tell(event)


def _native() -> BaseObserver:
    try:
        return Observer()
    except OSError:
        return PollingObserver(timeout=_POLL_SECONDS)


def _paths(event: FileSystemEvent) -> list[Path]:
    return [Path(os.fsdecode(path)) for path in (event.src_path, event.dest_path) if path]


def _is_scratch(name: str) -> bool:
    return (
        name.startswith(".")
        or name.endswith(_SCRATCH_ENDS)
        or name in _SCRATCH_NAMES
        or (name.startswith("#") and name.endswith("#"))
    )
