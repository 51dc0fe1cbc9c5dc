"""Writes the pages and files of a site, one after the other; what would be as it was is taken as it stands."""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterable
from dataclasses import replace
from hashlib import blake2b
from pathlib import Path
from typing import Final

from kbtools.export.json_text import Exported
from kbtools.index.asked_base import Log
from kbtools.pages.planned import Planned, PlannedFile
from kbtools.site.kept_pages import Freshness, KeptPage, Known, Notes, Record, asked_of
from kbtools.site.stamps import Stamped, Stamps, again, stamped

_SHOWN: Final = re.compile(rb'<img src="[./]*(pictures/[^"]+)"')
"""A picture of an entry, as the service worker looks for it (`keepPictures`)."""


Output = Planned | PlannedFile


def path_of(output: Output) -> str:
    """Where it stands, from the site's root."""
    return f"{output.address}index.html" if isinstance(output, Planned) else output.path


def digest(content: bytes) -> str:
    """Of the bytes of a page."""
    return blake2b(content, digest_size=12).hexdigest()


class Writer:
    """Writes pages into a folder."""

    def __init__(self, site: Path, make: Callable[[Planned], bytes], log: Log, marked: Stamps, values: Stamps) -> None:
        """`make` makes a page with marks, `log` notes what is asked meanwhile."""
        self._root = str(site)
        self._folders: set[str] = set()
        self._make = make
        self._log = log
        self._marked = marked
        self._values = values
        self._known = Known()

    def write(self, outputs: Iterable[Output], notes: Notes) -> None:
        """Make and write them, and note what each was made from."""
        for each in outputs:
            with self._log.listening() as asked:
                made = self._made(each)
            path = path_of(each)
            self._put(path, made.content)
            pictures = {found.decode() for found in _SHOWN.findall(made.content)} if isinstance(each, Planned) else ()
            notes.pages[path] = KeptPage(
                digest=digest(made.content),
                size=len(made.content),
                pictures=tuple(sorted(pictures)),
                doubtful=made.doubtful,
                asked=asked_of(asked, self._known),
            )
            self._tell(each, made.content, notes)

    def _made(self, output: Output) -> Stamped:
        if isinstance(output, Planned):
            return stamped(self._make(output), self._marked, self._values)
        return Stamped(content=output.make(), doubtful=())

    def take(
        self, outputs: Iterable[Output], old: Path, before: Record, fresh: Freshness, notes: Notes
    ) -> list[Output]:
        """Write what would be as it was, from where it stands.

        Returns:
            The others.
        """
        left = []
        for each in outputs:
            path = path_of(each)
            kept = fresh.page(path)
            content = None if kept is None else self._taken(old / path, each, kept, before)
            if kept is None or content is None:
                left.append(each)
                continue
            if isinstance(each, Planned):
                self._put(path, content)
            else:
                self._link(old / path, path, content)
            notes.pages[path] = replace(kept, digest=digest(content), size=len(content))
            self._tell(each, content, notes)
        return left

    def _taken(self, place: Path, output: Output, kept: KeptPage, before: Record) -> bytes | None:
        """None where the file is not what was written, or cannot be given the values of this build."""
        try:
            content = place.read_bytes()
        except OSError:
            return None
        if digest(content) != kept.digest:
            return None
        return again(content, before.values, self._values, kept.doubtful) if isinstance(output, Planned) else content

    @staticmethod
    def _tell(output: Output, content: bytes, notes: Notes) -> None:
        if isinstance(output, PlannedFile):
            notes.files[output.path] = Exported(content=content, count=1).about

    def _put(self, path: str, content: bytes) -> None:
        with open(self._place(path), "wb", buffering=0) as file:  # noqa: PTH123 (paths take longer)
            file.write(content)

    def _place(self, path: str) -> str:
        """Where a file goes, in a folder that is there."""
        place = f"{self._root}/{path}"
        folder, _, _ = place.rpartition("/")
        if folder not in self._folders:
            os.makedirs(folder, exist_ok=True)  # noqa: PTH103 (as above)
            self._folders.add(folder)
        return place

    def _link(self, old: Path, path: str, content: bytes) -> None:
        """Give a file its second name; where that cannot be, another one with the same content."""
        place = Path(self._place(path))
        try:
            if old.is_symlink():
                place.write_bytes(content)
            else:
                place.hardlink_to(old)
        except OSError:
            place.write_bytes(content)
