"""The only reader of a knowledge base's folder and of the schemas: bytes come in here, and nothing is judged."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from pathlib import Path

from kbtools.locate import shipped
from kbtools.reading.layout import IMAGE_SUFFIXES
from kbtools.reading.reader import Reading, read
from kbtools.reading.shape import Schema, Shape, load_shapes
from kbtools.reading.source import MAX_BYTES, SourceFile

_IGNORED = frozenset({"README.md", "Thumbs.db"})
"""Not part of a knowledge base, and no mistake either; names that start with a dot are passed over as well."""


def load(folder: Path) -> Reading:
    """Read the knowledge base in a folder.

    Raises:
        NotADirectoryError: there is no such folder.
    """
    if not folder.is_dir():
        raise NotADirectoryError(f"{folder} is not a folder")
    return read(files(folder), shapes())


def files(folder: Path) -> Iterator[SourceFile]:
    """Every file below the folder, in no particular order; links to other places are not followed."""
    top = folder.resolve()
    for where, folders, names in os.walk(folder):
        folders[:] = [each for each in folders if not each.startswith(".")]
        for name in [*names, *(each for each in folders if (Path(where) / each).is_symlink())]:
            if not name.startswith(".") and name not in _IGNORED:
                yield _file(Path(where) / name, folder, top)


def _file(path: Path, folder: Path, top: Path) -> SourceFile:
    name = path.relative_to(folder).as_posix()
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
        return SourceFile(path=name, data=None, problem="it is no ordinary file")
    except OSError as error:
        return SourceFile(path=name, data=None, problem=(error.strerror or "it is not there").lower())


def schema_files() -> dict[str, Schema]:
    """The schemas by the names of their files."""
    return {path.name: json.loads(path.read_text("utf-8")) for path in sorted(shipped("schemas").glob("*.json"))}


def shapes() -> dict[str, Shape]:
    """The schemas made ready, by kind of file. Read anew each time: they may have been edited while serving."""
    return load_shapes(schema_files())
