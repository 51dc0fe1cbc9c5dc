"""Data of earlier builds, for pages that a browser still shows because nothing in them has changed.

A page fetches its data from folders whose names say their content. The next build has others, and a page that is not
reloaded would ask for files that are gone.
"""

from __future__ import annotations

import os
import shutil
from pathlib import Path

FOLDER = "data"
"""Below the site's root; every folder in it has a name of its own content."""


class Earlier:
    """Keeps the data folders of a site that is about to be replaced."""

    def __init__(self, root: Path, now: int, *, most: int = 20) -> None:
        """Begin with nothing.

        Args:
            root: folder of the site, which need not be there yet.
            now: this moment, in any unit that only grows.
            most: so many folders are kept.
        """
        self.place = root.with_name(f".{root.name}.earlier")
        """Where they lie, named and nested as in the site; not there while nothing is kept."""
        self.oldest = now
        """A page that was given away before this moment may lack its data."""
        self._root = root
        self._most = most
        self._kept: dict[str, int] = {}

    def keep(self, now: int) -> None:
        """Keep what the site has that stands since this moment; what is oldest goes once there is too much of it."""
        folder = self._root / FOLDER
        for each in sorted(folder.iterdir()) if folder.is_dir() else []:
            if self._kept.pop(each.name, None) is None and each.is_dir():
                # Links to the files, which are never written again, only replaced.
                shutil.copytree(each, self.place / FOLDER / each.name, copy_function=_linked, dirs_exist_ok=True)
            # Behind all others: an edit that is taken back brings back the folder of before.
            self._kept[each.name] = now
        while len(self._kept) > self._most:
            name = next(iter(self._kept))
            del self._kept[name]
            self.oldest = next(iter(self._kept.values()))
            shutil.rmtree(self.place / FOLDER / name, ignore_errors=True)

    def close(self) -> None:
        """Forget everything."""
        shutil.rmtree(self.place, ignore_errors=True)


def _linked(source: str, target: str) -> None:
    try:
        os.link(source, target)
    except OSError:
        shutil.copyfile(source, target)
