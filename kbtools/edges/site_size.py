"""Weighs a site on the disk, and keeps the figures beside it, where they are not published."""

from __future__ import annotations

import gzip
import os
from collections.abc import Mapping
from pathlib import Path

from kbtools.report.site_size import Sizes, as_text, from_text, sized, sizes_of

_MOST = 50_000_000
"""Bytes of kept figures that are read."""


def weighed(site: Path) -> Sizes:
    """The files of a site, without hidden ones at its top, which are the host's and not ours."""
    files = {}
    for folder, folders, names in os.walk(site):
        here = Path(folder)
        if here == site:
            folders[:] = [name for name in folders if not name.startswith(".")]
            names = [name for name in names if not name.startswith(".")]  # noqa: PLW2901
        for name in names:
            path = here / name
            files[path.relative_to(site).as_posix()] = path.lstat().st_size
    return sizes_of(files)


def packed(site: Path, sizes: Sizes) -> Mapping[str, int]:
    """The heaviest pages as most hosts send them: bytes by gzip."""
    heaviest = sizes.heaviest
    return {
        page: len(gzip.compress((site / path).read_bytes(), 6, mtime=0))
        for page, path in zip(heaviest, sized(heaviest), strict=True)
    }


def _file(site: Path) -> Path:
    absolute = site.absolute()
    return absolute.with_name(f".{absolute.name}.kbtools-figures.json")


def last_figures(site: Path) -> Sizes | None:
    """What a site weighed when that was kept last; None: nobody knows."""
    try:
        file = _file(site)
        return from_text(file.read_text("utf-8", "replace")) if file.stat().st_size <= _MOST else None
    except OSError:
        return None


def keep_figures(site: Path, sizes: Sizes) -> None:
    """Keep what a site weighs, for the next report.

    Raises:
        OSError: it cannot be written.
    """
    _file(site).write_text(as_text(sizes), encoding="utf-8")
