"""A folder that is there whole or not at all, and never in the place of one that holds anything."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path

from kbtools.edges import file_system


class TakenError(Exception):
    """The place cannot be used; the words say why and what to do."""


def refuse_taken(target: Path) -> None:
    """Look whether a new folder may go there: nothing is there, or an empty folder.

    Raises:
        TakenError: it may not.
    """
    if os.path.lexists(target):
        if target.is_symlink() or not target.is_dir():
            raise TakenError(f"{target} is there already, and is no folder. Name another place.")
        if any(target.iterdir()):
            raise TakenError(
                f"{target} holds something already, and stays as it is. Name a folder that is not there yet."
            )
        if target.resolve() in (here := Path.cwd().resolve(), *here.parents):
            raise TakenError(f"You stand in {target}. Go one folder up, and name it from there.")
    if not target.absolute().parent.is_dir():
        raise TakenError(f"There is no folder {target.absolute().parent} to put it into.")


def put_folder(target: Path, files: Mapping[str, bytes]) -> None:
    """Write all files into a hidden folder beside, then give it its name in one step.

    Args:
        target: where nothing is, or an empty folder.
        files: content by path from the folder.

    Raises:
        TakenError: something is there, perhaps since a moment ago.
        OSError: it cannot be written; nothing of it is there.
    """
    refuse_taken(target)
    target = target.absolute()
    beside = Path(tempfile.mkdtemp(dir=target.parent, prefix=".kbtools-new-"))
    try:
        for name, data in files.items():
            path = beside / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
        mask = os.umask(0)
        os.umask(mask)
        beside.chmod(0o777 & ~mask)
        file_system.flush(beside)
        if target.is_dir():
            # Refuses a folder that holds anything.
            target.rmdir()
        file_system.rename(beside, target)
        file_system.flush_names(target.parent)
    finally:
        shutil.rmtree(beside, ignore_errors=True)
