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
        # A link to a folder is not gone into, and a folder that is named like a file is a mistake: both are told of.
        odd = [each for each in folders if Path(each).suffix in _SUFFIXES or (here / each).is_symlink()]
        folders[:] = [each for each in folders if not each.startswith(".") and each not in odd]
        for name in odd:
            if not name.startswith("."):
                yield _file(here / name, folder)
        for name in names:
            if not is_passed_over((here / name).relative_to(folder).as_posix()):
                yield _file(here / name, folder)
    for error in closed:
        name = _named(Path(error.filename), folder)
        yield SourceFile(path=name, data=None, problem=(error.strerror or "it is not there").lower())


def _named(path: Path, folder: Path) -> str:
    """The path as a text that can be shown: bytes that are not UTF-8 are spelt out."""
    return os.fsencode(path.relative_to(folder).as_posix()).decode("utf-8", "backslashreplace")


def source_file(folder: Path, name: str) -> SourceFile:
    """One file, by its path from the folder, under the same precautions as all of them.

    A link could otherwise have a stranger's file quoted in a report.
    """
    above = [folder / each for each in PurePosixPath(name).parents if each != PurePosixPath(".")]
    if ".." in PurePosixPath(name).parts or any(each.is_symlink() for each in above):
        return SourceFile(path=name, data=None, problem=_LINK)
    return _file(folder / name, folder)


def _file(path: Path, folder: Path) -> SourceFile:
    name = _named(path, folder)
    try:
        found = path.lstat()
        problem = _problem(found.st_mode)
        if problem is not None:
            return SourceFile(path=name, data=None, problem=problem)
        with os.fdopen(os.open(path, _PLAIN), "rb") as stream:
            # What it is may have changed since it was looked at.
            problem = _problem(os.fstat(stream.fileno()).st_mode)
            # One byte more than is read tells that there is more.
            most = MAX_PICTURE_BYTES if path.suffix.lower() in IMAGE_SUFFIXES else MAX_BYTES
            data = stream.read(most + 1) if problem is None else None
            return SourceFile(path=name, data=data, problem=problem)
    except OSError as error:
        return SourceFile(path=name, data=None, problem=(error.strerror or "it is not there").lower())


def _problem(mode: int) -> str | None:
    """Why something cannot be read, whatever is in it; None for an ordinary file."""
    if stat.S_ISLNK(mode):
        return _LINK
    if stat.S_ISDIR(mode):
        return "it is a folder"
    return None if stat.S_ISREG(mode) else "it is no ordinary file"
