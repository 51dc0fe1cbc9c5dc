"""What is made once for a whole run, whichever worker asks for it first: built sites, above all."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest
from filelock import FileLock

from tests.support.places import ROOT


class Shared:
    """Folders that all workers of a run share. Whoever uses one only reads it."""

    def __init__(self, top: Path) -> None:
        self._top = top

    def folder(self, name: str, make: Callable[[Path], None]) -> Path:
        """The folder of this name. The first who asks has `make` fill it, all others wait until it is full.

        A `make` that fails makes no folder: the next who asks tries again, and sees the same failure.
        """
        place = self._top / name
        with FileLock(f"{place}.lock"):
            if not place.exists():
                making = Path(tempfile.mkdtemp(prefix=f"{name}-", dir=self._top))
                make(making)
                making.rename(place)
        return place


def built(kb: Path, site: Path, *, program: str = "kbtools") -> None:
    """Build a knowledge base by the command line in a process of its own. Where that fails, the test says why."""
    command = [sys.executable, "-m", program, "build", "--kb", str(kb), "--site-dir", str(site)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    if done.returncode != 0:
        pytest.fail(f"{kb} could not be built:\n{done.stdout[-3000:]}\n{done.stderr[-3000:]}", pytrace=False)
