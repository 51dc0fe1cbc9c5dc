"""Writing into a knowledge base's folder: a file is there whole or as it was, and nobody else's is written over."""

from __future__ import annotations

import contextlib
import errno
import os
import stat
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from kbtools.edges.file_system import rename
from kbtools.edges.folder import source_file
from kbtools.reading.source import SourceFile


def put_in_place(folder: Path, file: SourceFile, data: bytes) -> bool:
    """Give a file another content in one step; it keeps its permissions.

    Args:
        folder: of the knowledge base.
        file: as it was read.
        data: what it is to hold.

    Returns:
        False, and nothing done, where it is no longer as it was read.

    Raises:
        OSError: it cannot be written; it is as it was.
    """
    path = folder / file.path
    with _beside(path, data) as temporary:
        temporary.chmod(stat.S_IMODE(path.stat().st_mode))
        if source_file(folder, file.path).data != file.data:
            return False
        temporary.replace(path)
    return True


def put_all(folder: Path, changed: Sequence[tuple[SourceFile, bytes]]) -> bool:
    """Give several files another content: all of them, or none.

    Args:
        folder: of the knowledge base.
        changed: files as they were read, and what they are to hold.

    Returns:
        False, and nothing done, where one is no longer as it was read.

    Raises:
        OSError: one cannot be written; all are as they were.
    """
    done: list[tuple[SourceFile, bytes]] = []
    whole = False
    try:
        for file, data in changed:
            if not put_in_place(folder, file, data):
                return False
            done.append((file, data))
        whole = True
    finally:
        for file, data in [] if whole else done:
            put_in_place(folder, replace(file, data=data), file.data or b"")
    return True


def put_new(folder: Path, name: str, data: bytes) -> None:
    """Write a file that is not there yet, and the folders that it stands in.

    Raises:
        FileExistsError: something of that name is there, and stays as it was.
        OSError: it cannot be written; no part of it is there.
    """
    path = folder / name
    for above in path.parents:
        if above != folder and folder in above.parents and above.is_symlink():
            raise FileExistsError(errno.EEXIST, "A link stands there, and links are not followed", str(above))
    path.parent.mkdir(parents=True, exist_ok=True)
    with _beside(path, data) as temporary:
        temporary.chmod(0o666 & ~_umask())
        if os.name == "nt":
            # Refuses what is there; elsewhere a rename would write over it, and a second name does not.
            rename(temporary, path)
        else:
            path.hardlink_to(temporary)


def put_over(path: Path, data: bytes) -> None:
    """Write a file that somebody named, whatever stood there; a link is written through.

    Raises:
        OSError: it cannot be written; what stood there stays.
    """
    path = path.resolve()
    rights = stat.S_IMODE(path.stat().st_mode) if path.is_file() else 0o666 & ~_umask()
    with _beside(path, data) as temporary:
        temporary.chmod(rights)
        temporary.replace(path)


@contextlib.contextmanager
def _beside(path: Path, data: bytes) -> Iterator[Path]:
    """The data in a hidden file in the same folder, on the disk; gone afterwards if it still bears that name."""
    number, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".tmp")
    temporary = Path(name)
    try:
        with os.fdopen(number, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        yield temporary
    finally:
        temporary.unlink(missing_ok=True)


def _umask() -> int:
    """What the user takes from the rights of new files."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
