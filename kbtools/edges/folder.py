"""The only reader of a knowledge base's folder: bytes come in here, and nothing is judged."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from kbtools.edges.shipped import shapes, tables
from kbtools.reading.layout import IMAGE_SUFFIXES
from kbtools.reading.reader import Reading, read
from kbtools.reading.source import MAX_BYTES, SourceFile

_IGNORED = frozenset({"README.md", "Thumbs.db"})
"""Not part of a knowledge base, and no mistake either; names that start with a dot are passed over as well."""
_SUFFIXES = frozenset({".yml", ".yaml", ".md"})
"""What the files of a knowledge base end in."""


def load(folder: Path) -> Reading:
    """Read the knowledge base in a folder.

    Raises:
        NotADirectoryError: there is no such folder.
    """
    return read(files(folder), shapes(), tables=tables())


def files(folder: Path) -> Iterator[SourceFile]:
    """Every file below the folder, in no particular order; links to other places are not followed.

    Raises:
        NotADirectoryError: there is no such folder.
    """
    if not folder.is_dir():
        raise NotADirectoryError(f"{folder} is not a folder")
    top = folder.resolve()
    closed: list[OSError] = []
    for where, folders, names in os.walk(folder, onerror=closed.append):
        # A link to a folder is not gone into, and a folder that is named like a file is a mistake: both are told of.
        odd = [each for each in folders if Path(each).suffix in _SUFFIXES or (Path(where) / each).is_symlink()]
        folders[:] = [each for each in folders if is_ours(each) and each not in odd]
        for name in [*names, *odd]:
            if is_ours(name):
                yield _file(Path(where) / name, folder, top)
    for error in closed:
        name = _named(Path(error.filename), folder)
        yield SourceFile(path=name, data=None, problem=(error.strerror or "it is not there").lower())


def is_ours(name: str) -> bool:
    """Whether a file or folder of this name is looked at."""
    return not name.startswith(".") and name not in _IGNORED


def _named(path: Path, folder: Path) -> str:
    """The path as a text that can be shown: bytes that are not UTF-8 are spelt out."""
    return os.fsencode(path.relative_to(folder).as_posix()).decode("utf-8", "backslashreplace")


def source_file(folder: Path, name: str) -> SourceFile:
    """One file, by its path from the folder, under the same precautions as all of them.

    A link that leads out of the folder could otherwise have a stranger's file quoted in a report.
    """
    return _file(folder / name, folder, folder.resolve())


def _file(path: Path, folder: Path, top: Path) -> SourceFile:
    name = _named(path, folder)
    try:
        if not path.resolve(strict=True).is_relative_to(top):
            return SourceFile(path=name, data=None, problem="it is a link that leads out of the folder")
        if path.suffix.lower() in IMAGE_SUFFIXES:
            # Its place is checked, its content is not ours to judge.
            return SourceFile(path=name, data=b"")
        if path.is_file():
            with path.open("rb") as stream:
                # One byte more than is read tells that there is more.
                return SourceFile(path=name, data=stream.read(MAX_BYTES + 1))
        what = "it is a folder" if path.is_dir() else "it is no ordinary file"
        return SourceFile(path=name, data=None, problem=what)
    except RuntimeError:
        # Python before 3.13 says so of a link that leads to itself.
        return SourceFile(path=name, data=None, problem="it is a link that leads to itself")
    except OSError as error:
        return SourceFile(path=name, data=None, problem=(error.strerror or "it is not there").lower())
