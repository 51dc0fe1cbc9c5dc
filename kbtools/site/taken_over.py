"""Files of the build before the last, in the folder of this one: those that would be as they are stay, all others go.

A page differs from the last build's by the values of its build, if by anything: these are written over the old ones
where they stand. Nothing that anybody sees is written to: a file with a second name is never changed, no link is
followed, and what was not looked at and found good is gone before the build writes anything in its place.
"""

from __future__ import annotations

import contextlib
import os
import re
import shutil
import stat
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Final

from kbtools.site.kept_pages import KeptPage
from kbtools.site.stamps import Stamps, without_values

_Tree = dict[str, "_Tree | None"]
"""What is in a folder, by name: of a folder what is in it, None of anything else."""
_DATA: Final = re.compile(r"data/[a-z]+-[0-9a-f]{12}/")
_OPENED: Final = os.O_RDWR | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_BINARY", 0)


class TakenOver:
    """The files of a spare site that have come into a new one."""

    def __init__(self, site: Path, spare: Path | None = None, names: Mapping[str, str] | None = None) -> None:
        """Move them over; what the new site has already stays as it is.

        Args:
            site: folder of the new site.
            spare: of the spare one, which is gone afterwards; None: there is none.
            names: folders of it to their names in the new one.
        """
        self._root = str(site)
        self._files: set[str] = set()
        self._folders: list[str] = []
        self._kept: set[str] = set()
        self._file_mode = self._folder_mode = 0
        if spare is not None and spare.is_dir() and not spare.is_symlink():
            self._file_mode, self._folder_mode = _modes(site)
            for before, now in (names or {}).items():
                # What is kept of a build is no reason to move anything else about.
                if _DATA.fullmatch(before):
                    with contextlib.suppress(OSError):
                        (spare / before).rename(spare / now)
            with contextlib.suppress(OSError, RecursionError):
                # All of it is looked at before any of it is moved, so that nothing is in the new site unknown.
                self._move(_looked_through(str(spare), self._folder_mode), str(spare), "")
            shutil.rmtree(spare, ignore_errors=True)

    def page(self, path: str, kept: KeptPage, before: Mapping[str, str], values: Stamps) -> bool:
        """Whether a page or a file stands there as it is to be, with the values of this build put in.

        Args:
            path: from the site's root.
            kept: as it was written.
            before: the values of the spare site.
            values: of this build.
        """
        return self._good(path, lambda number, state: _renewed(number, state, kept, before, values))

    def lacking(self, folder: str, contents: Mapping[str, bytes]) -> dict[str, bytes]:
        """Those files of a folder, by name, that do not stand there with their content.

        Args:
            folder: from the site's root, with the last slash.
            contents: by name.
        """
        return {name: each for name, each in contents.items() if not self._stands(f"{folder}{name}", each)}

    def _stands(self, path: str, content: bytes) -> bool:
        def look(number: int, state: os.stat_result) -> bool:
            return state.st_size == len(content) and os.read(number, len(content) + 1) == content

        return self._good(path, look)

    def sweep(self) -> None:
        """Remove all that was not asked for and found good; before anything is written that may stand in its place."""
        for path in self._files - self._kept:
            # Another run may have thrown away what nobody had taken for a month.
            with contextlib.suppress(FileNotFoundError):
                os.unlink(f"{self._root}/{path}")  # noqa: PTH108 (paths take longer)
        used = {""}
        for path in self._kept:
            folder = path.rpartition("/")[0]
            while folder not in used:
                used.add(folder)
                folder = folder.rpartition("/")[0]
        # The deepest first, as they were found the other way round.
        for folder in reversed(self._folders):
            if folder not in used:
                with contextlib.suppress(FileNotFoundError):
                    os.rmdir(f"{self._root}/{folder}")  # noqa: PTH106 (as above)

    def _good(self, path: str, look: Callable[[int, os.stat_result], bool]) -> bool:
        """Whether a file has come over that a look at it finds good."""
        if path not in self._files:
            return False
        try:
            number = os.open(f"{self._root}/{path}", _OPENED)
        except OSError:
            return False
        good = False
        try:
            state = os.fstat(number)
            is_plain = stat.S_ISREG(state.st_mode) and stat.S_IMODE(state.st_mode) == self._file_mode
            good = is_plain and look(number, state)
        except OSError:
            return False
        finally:
            os.close(number)
        if good:
            self._kept.add(path)
        return good

    def _move(self, tree: _Tree, source: str, below: str) -> None:
        """Move what is in a folder of the spare site, whole folders where the new one has none of that name."""
        for name, inner in tree.items():
            path, place = f"{below}{name}", f"{self._root}/{below}{name}"
            if not os.path.lexists(place):
                os.rename(f"{source}/{name}", place)  # noqa: PTH104 (as above)
                self._note(path, inner)
            elif inner is not None and stat.S_ISDIR(os.lstat(place).st_mode):
                self._move(inner, f"{source}/{name}", f"{path}/")

    def _note(self, path: str, inner: _Tree | None) -> None:
        """Take note of a file, or of a folder and all below it."""
        if inner is None:
            self._files.add(path)
            return
        self._folders.append(path)
        for name, each in inner.items():
            self._note(f"{path}/{name}", each)


def _looked_through(folder: str, mode: int) -> _Tree:
    """What is in a folder and below it; all folders get the mode."""
    found: _Tree = {}
    with os.scandir(folder) as entries:
        for each in entries:
            found[each.name] = _looked_through(each.path, mode) if each.is_dir(follow_symlinks=False) else None
    if stat.S_IMODE(os.lstat(folder).st_mode) != mode:
        os.chmod(folder, mode)  # noqa: PTH101 (as above)
    return found


def _renewed(number: int, state: os.stat_result, kept: KeptPage, before: Mapping[str, str], values: Stamps) -> bool:
    """Whether an open page is the one that was kept; the values of before are exchanged for those of now."""
    page = without_values(os.read(number, state.st_size + 1), before, kept.places)
    if page is None or page.digest != kept.digest:
        return False
    changes, shift = [], 0
    for name, place in kept.places:
        old, new = before[name].encode(), str(getattr(values, name)).encode()
        if old != new:
            changes.append((place + shift, new))
        if len(old) != len(new):
            return False
        shift += len(old)
    if changes and state.st_nlink != 1:
        return False
    for place, new in changes:
        os.lseek(number, place, os.SEEK_SET)
        os.write(number, new)
    return True


def _modes(site: Path) -> tuple[int, int]:
    """The modes of a new file and of a new folder."""
    # Asking for the mask that they follow from means to set it, for all threads.
    place = Path(tempfile.mkdtemp(dir=site))
    folder, file = place / "folder", place / "file"
    folder.mkdir()
    file.touch()
    modes = stat.S_IMODE(file.stat().st_mode), stat.S_IMODE(folder.stat().st_mode)
    shutil.rmtree(place)
    return modes
