"""The only reader of a knowledge base's folder: bytes come in here, and nothing is judged.

What is read here is what is checked, and what is checked is what is published: nothing else reads the folder. Links are
never followed, and what is no ordinary file is never opened, so that nothing waits and nobody else's file gets in.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from pathlib import Path, PurePosixPath

from kbtools.edges.shipped import shapes, tables
from kbtools.reading.layout import IMAGE_SUFFIXES, is_passed_over
from kbtools.reading.reader import Reading, read
from kbtools.reading.source import MAX_BYTES, MAX_PICTURE_BYTES, SourceFile

_SUFFIXES = frozenset({".yml", ".yaml", ".md", *IMAGE_SUFFIXES})
"""What the files of a knowledge base end in."""
_LINK = "it is a link"
_PIECE = 4_096
"""Bytes that are asked for at once of a file that is longer than was said."""
_PLAIN = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
"""A link that came between is not followed, and a pipe not waited for."""


def load(folder: Path) -> Reading:
    """Read the knowledge base in a folder.

    Raises:
        NotADirectoryError: there is no such folder.
    """
    return read(files(folder), shapes(), tables=tables())


def files(folder: Path) -> Iterator[SourceFile]:
    """Every file below the folder, in no particular order.

    Raises:
        NotADirectoryError: there is no such folder.
    """
    if not folder.is_dir():
        raise NotADirectoryError(f"{folder} is not a folder")
    closed: list[OSError] = []
    for where, folders, names in os.walk(folder, onerror=closed.append):
        here = Path(where)
        # Names are put together as texts: a path is an object that takes longer to make than a file to read.
        start = "" if here == folder else f"{here.relative_to(folder).as_posix()}/"
        # A link to a folder is not gone into, and a folder that is named like a file is a mistake: both are told of.
        odd = [each for each in folders if Path(each).suffix in _SUFFIXES or (here / each).is_symlink()]
        folders[:] = [each for each in folders if not each.startswith(".") and each not in odd]
        for name in odd:
            if not name.startswith("."):
                yield _file(f"{where}{os.sep}{name}", start + name)
        for name in names:
            if not is_passed_over(start + name):
                yield _file(f"{where}{os.sep}{name}", start + name)
    for error in closed:
        name = _shown(Path(error.filename).relative_to(folder).as_posix())
        yield SourceFile(path=name, data=None, problem=(error.strerror or "it is not there").lower())


def _shown(name: str) -> str:
    """A path as a text that can be shown: bytes that are not UTF-8 are spelt out."""
    return name if name.isascii() else os.fsencode(name).decode("utf-8", "backslashreplace")


def source_file(folder: Path, name: str) -> SourceFile:
    """One file, by its path from the folder, under the same precautions as all of them.

    A link could otherwise have a stranger's file quoted in a report.
    """
    above = [folder / each for each in PurePosixPath(name).parents if each != PurePosixPath(".")]
    if ".." in PurePosixPath(name).parts or any(each.is_symlink() for each in above):
        return SourceFile(path=name, data=None, problem=_LINK)
    return _file(str(folder / name), PurePosixPath(name).as_posix())


def _file(path: str, name: str) -> SourceFile:
    """The file at a path, called by its path from the folder."""
    name = _shown(name)
    try:
        problem = _problem(os.lstat(path).st_mode)
        if problem is not None:
            return SourceFile(path=name, data=None, problem=problem)
        descriptor = os.open(path, _PLAIN)
        try:
            # What it is may have changed since it was looked at.
            found = os.fstat(descriptor)
            problem = _problem(found.st_mode)
            most = MAX_PICTURE_BYTES if name.lower().endswith(IMAGE_SUFFIXES) else MAX_BYTES
            data = _read(descriptor, found.st_size, most) if problem is None else None
            return SourceFile(path=name, data=data, problem=problem)
        finally:
            os.close(descriptor)
    except OSError as error:
        return SourceFile(path=name, data=None, problem=(error.strerror or "it is not there").lower())


def _read(descriptor: int, size: int, most: int) -> bytes:
    """A file of about this size to its end, but no more than one byte above the most, which tells that there is more.

    What is asked for is laid aside before it is read, so it is the file's size and not the most.
    """
    parts = [os.read(descriptor, min(size, most) + 1)]
    left = most + 1 - len(parts[0])
    while parts[-1] and left > 0:
        parts.append(os.read(descriptor, min(left, _PIECE)))
        left -= len(parts[-1])
    return parts[0] if len(parts) == 2 and not parts[1] else b"".join(parts)


def _problem(mode: int) -> str | None:
    """Why something cannot be read, whatever is in it; None for an ordinary file."""
    if stat.S_ISLNK(mode):
        return _LINK
    if stat.S_ISDIR(mode):
        return "it is a folder"
    return None if stat.S_ISREG(mode) else "it is no ordinary file"
