"""Runs a command by itself, and tells how long it took and how much memory it needed."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.support.places import ROOT


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A command that ended well."""

    seconds: float
    """Wall time, the start of the interpreter included."""
    processor: float
    """Seconds of the processor: what is left of the time when others use the machine too."""
    megabytes: float
    """Peak resident memory."""
    output: str
    """What it printed."""


def python(*arguments: str, within: Path = ROOT, epoch: str = "1780300800") -> Run:
    """Run Python in a process of its own, as if it were the day of `epoch` (seconds since 1970).

    Raises:
        SystemExit: it failed; a benchmark of something broken is none.
    """
    environment = {**os.environ, "NO_MKDOCS_2_WARNING": "true", "SOURCE_DATE_EPOCH": epoch}
    with tempfile.TemporaryFile() as output:
        started = time.perf_counter()
        command = [sys.executable, *arguments]
        child = subprocess.Popen(command, cwd=within, stdout=output, stderr=output, env=environment)
        _, status, used = os.wait4(child.pid, 0)
        seconds = time.perf_counter() - started
        child.returncode = os.waitstatus_to_exitcode(status)
        output.seek(0)
        text = output.read().decode(errors="replace")
    if child.returncode != 0:
        raise SystemExit(f"{_shown(arguments)} failed:\n{text[-3000:]}")
    # Linux counts in kilobytes, macOS in bytes.
    unit = 1e6 if sys.platform == "darwin" else 1e3
    processor = used.ru_utime + used.ru_stime
    return Run(seconds=seconds, processor=processor, megabytes=used.ru_maxrss / unit, output=text)


def _shown(arguments: Sequence[str]) -> str:
    return " ".join(("python", *arguments))
