"""Writes the pages and files of a site, one after the other; what would be as it was is taken as it stands."""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Final

from kbtools.export.json_text import About
from kbtools.index.asked_base import Log
from kbtools.pages.planned import Planned, PlannedFile
from kbtools.site.kept_pages import Freshness, KeptPage, Notes, Record
from kbtools.site.stamps import Stamps, Unstamped, without_marks, without_values
from kbtools.site.taken_over import TakenOver

_SHOWN: Final = re.compile(rb'<img src="[./]*(pictures/[^"]+)"')
"""A picture of an entry, as the service worker looks for it (`keepPictures`)."""


Output = Planned | PlannedFile


def path_of(output: Output) -> str:
    """Where it stands, from the site's root."""
    return f"{output.address}index.html" if isinstance(output, Planned) else output.path


class Writer:
    """Writes pages into a folder."""

    def __init__(self, site: Path, make: Callable[[Planned], bytes], log: Log, marked: Stamps, values: Stamps) -> None:
        """`make` makes a page with marks, `log` notes what is asked meanwhile."""
        self.site = site
        self._root = str(site)
        self._folders: set[str] = set()
        self._make = make
        self._log = log
        self._marked = marked
        self._values = values

    def write(self, outputs: Iterable[Output], notes: Notes) -> None:
        """Make and write them, and note what each was made from."""
        for each in outputs:
            with self._log.listening() as asked:
                page = self._made(each)
            content = page.stamped(self._values)
            self._put(path_of(each), content)
            pictures = {found.decode() for found in _SHOWN.findall(content)} if isinstance(each, Planned) else ()
            kept = KeptPage(
                digest=page.digest,
                size=len(content),
                pictures=tuple(sorted(pictures)),
                places=page.places,
                asked=notes.questions.numbers(asked),
            )
            _tell(each, kept, notes)

    def _made(self, output: Output) -> Unstamped:
        if isinstance(output, Planned):
            return without_marks(self._make(output), self._marked)
        return Unstamped(parts=(output.make(),), names=())

    def keep(
        self, outputs: Iterable[Output], over: TakenOver, before: Record, fresh: Freshness, notes: Notes
    ) -> list[Output]:
        """Take note of what stands in the new site already, as it is to be.

        Returns:
            The others.
        """
        left = []
        for each in outputs:
            path = path_of(each)
            kept = fresh.page(path)
            if kept is not None and over.page(path, kept, before.earlier, self._values):
                _tell(each, kept, notes)
            else:
                left.append(each)
        return left

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
            page = None if kept is None else _standing(f"{old}/{path}", kept, before)
            if kept is None or page is None:
                left.append(each)
            elif isinstance(each, Planned):
                content = page.stamped(self._values)
                self._put(path, content)
                _tell(each, kept if len(content) == kept.size else replace(kept, size=len(content)), notes)
            else:
                self._link(old / path, path, page.parts[0])
                _tell(each, kept, notes)
        return left

    def data(self, folder: str, contents: Mapping[str, bytes], old: Path | None) -> None:
        """Write files of a folder whose name says their content.

        Args:
            folder: from the site's root, with the last slash.
            contents: by name.
            old: the same folder of the site that stands there, whatever its name; None: there is none.
        """
        for name, content in contents.items():
            path = f"{folder}{name}"
            if old is not None and _content(f"{old}/{name}") == content:
                self._link(old / name, path, content)
            else:
                self._put(path, content)

    def _put(self, path: str, content: bytes) -> None:
        with open(self._place(path), "wb") as file:  # noqa: PTH123 (paths take longer)
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


def _standing(place: str, kept: KeptPage, before: Record) -> Unstamped | None:
    """A page or a file as it stands; None where it is not what was written."""
    content = _content(place)
    if content is None or len(content) != kept.size:
        return None
    page = without_values(content, before.values, kept.places)
    return page if page is not None and page.digest == kept.digest else None


def _content(place: str) -> bytes | None:
    try:
        with open(place, "rb", buffering=0) as file:  # noqa: PTH123 (as above)
            return file.read()
    except OSError:
        return None


def _tell(output: Output, kept: KeptPage, notes: Notes) -> None:
    notes.pages[path_of(output)] = kept
    if isinstance(output, PlannedFile):
        # The digest of a file without values is that of its content.
        notes.files[output.path] = About(count=1, size=kept.size, sha256=kept.digest)
