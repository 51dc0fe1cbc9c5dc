"""What the standard library lacks of the file system: exchanging two names, one flush for many files, a lock file."""

from __future__ import annotations

import contextlib
import ctypes
import errno
import os
import sys
import time
from collections.abc import Iterator
from pathlib import Path

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

_NO_EXCHANGE = {errno.ENOSYS, errno.EINVAL, errno.ENOTSUP, errno.EPERM, errno.EXDEV}
"""Errors of renameat2(2): this kernel, sandbox or file system cannot exchange, but plain renames may still work."""
_AT_FDCWD = -100
_RENAME_EXCHANGE = 2
_WINDOWS_TRIES = 20
"""A reader's open file blocks a rename on Windows: how often to try again, a tenth of a second apart."""


def exchange(one: Path, other: Path) -> bool:
    """Exchange two names in one step with Linux' renameat2(2). False, and nothing done, where that is not to be had."""
    call = getattr(_libc(), "renameat2", None)
    if call is None:
        return False
    if call(_AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other), ctypes.c_uint(_RENAME_EXCHANGE)) == 0:
        return True
    number = ctypes.get_errno()
    if number in _NO_EXCHANGE:
        return False
    raise OSError(number, os.strerror(number), str(other))


def rename(source: Path, target: Path) -> None:
    """Rename a file or folder; on Windows wait for readers to let go of it."""
    for _ in range(_WINDOWS_TRIES if sys.platform == "win32" else 0):
        try:
            source.rename(target)
        except PermissionError:
            time.sleep(0.1)
        else:
            return
    source.rename(target)


def flush(folder: Path) -> None:
    """Have the folder's file system write what it holds back: one call, where fsync would need one for each file.

    Linux only; elsewhere nothing happens.
    """
    call = getattr(_libc(), "syncfs", None)
    if call is not None:
        with _descriptor(folder) as number:
            call(number)


def flush_names(folder: Path) -> None:
    """Write a folder's own entries (what was renamed in it) to the disk, where the system can."""
    if sys.platform != "win32":
        with contextlib.suppress(OSError), _descriptor(folder) as number:
            os.fsync(number)


def take_lock(path: Path) -> int | None:
    """An open, locked descriptor of the file at `path`, made if need be, or None if somebody else holds the lock.

    The kernel lets go of the lock however the process ends.
    """
    while True:
        number = os.open(path, os.O_RDWR | os.O_CREAT, 0o666)
        try:
            if sys.platform == "win32":
                msvcrt.locking(number, msvcrt.LK_NBLCK, 1)
            else:
                fcntl.flock(number, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except (BlockingIOError, PermissionError):
            os.close(number)
            return None
        with contextlib.suppress(FileNotFoundError):
            if os.path.samestat(os.fstat(number), path.stat()):
                return number
        os.close(number)


def release_lock(path: Path, number: int) -> None:
    """Let go of a lock and remove its file, so that nothing is left lying about."""
    # POSIX: removed while locked, and whoever opened it meanwhile notices (see above). Windows: removed once closed,
    # and the system refuses if somebody else has it open.
    if sys.platform == "win32":
        os.close(number)
    with contextlib.suppress(OSError):
        path.unlink()
    if sys.platform != "win32":
        os.close(number)


def _libc() -> ctypes.CDLL | None:
    return ctypes.CDLL(None, use_errno=True) if sys.platform == "linux" else None


@contextlib.contextmanager
def _descriptor(folder: Path) -> Iterator[int]:
    number = os.open(folder, os.O_RDONLY)
    try:
        yield number
    finally:
        os.close(number)
