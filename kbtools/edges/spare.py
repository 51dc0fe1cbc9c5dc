"""The site of the build before the last, set aside: of it the next build need not write anew what is as it was.

To make a page's folder and file takes the file system some thirty times as long as to change a few bytes of the file,
and to remove them a third of that. The spare site lies in the cache folder, since it is worth nothing but time:
whoever takes files from it looks at each of them first.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import shutil
import time
from pathlib import Path
from typing import Final

from kbtools.edges import cache
from kbtools.edges import file_system as filesystem

FOLDER: Final = "sites"
"""Below the cache folder."""
_KEPT_SECONDS: Final = 30 * 24 * 3600
"""One that no build has taken so long goes."""


def spare_of(site: Path) -> Path | None:
    """Where the spare of a site lies, if there is one; None where the user wants no cache, or has it in the site."""
    kept = cache.place()
    if kept is None or site.resolve() in {kept.resolve(), *kept.resolve().parents}:
        return None
    name = hashlib.blake2b(os.fsencode(site.absolute()), digest_size=12).hexdigest()
    return kept.absolute() / FOLDER / name


def set_aside(old: Path, spare: Path) -> bool:
    """Make a site that was replaced the spare one, in the place of any other.

    Returns:
        Whether that could be; it stays where it is if not, as between two file systems.
    """
    try:
        spare.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        for each in spare.parent.iterdir():
            if each == spare or each.lstat().st_mtime < time.time() - _KEPT_SECONDS:
                _remove(each)
        filesystem.rename(old, spare)
    except OSError:
        return False
    with contextlib.suppress(OSError):
        os.utime(spare)
    return True


def _remove(path: Path) -> None:
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path, ignore_errors=True)
    else:
        path.unlink()
