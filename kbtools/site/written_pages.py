"""Writes the generated pages of a site, one after the other; what would be as it was is taken as it stands."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import replace
from hashlib import blake2b
from pathlib import Path
from typing import Final

from kbtools.index.asked_base import Log
from kbtools.pages.planned import Planned
from kbtools.site.kept_pages import Freshness, KeptPage, Notes, Record, asked_of
from kbtools.site.stamps import Stamps, again, stamped

_SHOWN: Final = re.compile(rb'<img src="[./]*(pictures/[^"]+)"')
"""A picture of an entry, as the service worker looks for it (`keepPictures`)."""


def digest(content: bytes) -> str:
    """Of the bytes of a page."""
    return blake2b(content, digest_size=12).hexdigest()


class Writer:
    """Writes pages into a folder."""

    def __init__(self, site: Path, make: Callable[[Planned], bytes], log: Log, marked: Stamps, values: Stamps) -> None:
        """`make` makes a page with marks, `log` notes what is asked meanwhile."""
        self._site = site
        self._make = make
        self._log = log
        self._marked = marked
        self._values = values

    def write(self, pages: Iterable[Planned], notes: Notes) -> None:
        """Make and write pages, and note what each was made from."""
        for planned in pages:
            with self._log.listening() as asked:
                made = stamped(self._make(planned), self._marked, self._values)
            self._put(planned.address, made.content)
            notes.pages[planned.address] = KeptPage(
                digest=digest(made.content),
                size=len(made.content),
                pictures=tuple(sorted({each.decode() for each in _SHOWN.findall(made.content)})),
                doubtful=made.doubtful,
                asked=asked_of(asked),
            )

    def take(
        self, pages: Iterable[Planned], old: Path, before: Record, fresh: Freshness, notes: Notes
    ) -> list[Planned]:
        """Write those pages that would be as they were, from where they stand.

        Returns:
            The others.
        """
        left = []
        for planned in pages:
            kept = fresh.page(planned.address)
            content = None if kept is None else self._taken(old, planned.address, kept, before)
            if kept is None or content is None:
                left.append(planned)
                continue
            self._put(planned.address, content)
            notes.pages[planned.address] = replace(kept, digest=digest(content), size=len(content))
        return left

    def _taken(self, old: Path, address: str, kept: KeptPage, before: Record) -> bytes | None:
        """None where the file is not what was written, or cannot be given the values of this build."""
        try:
            content = (old / address / "index.html").read_bytes()
        except OSError:
            return None
        if digest(content) != kept.digest:
            return None
        return again(content, before.values, self._values, kept.doubtful)

    def _put(self, address: str, content: bytes) -> None:
        place = self._site / address
        place.mkdir(parents=True, exist_ok=True)
        (place / "index.html").write_bytes(content)
