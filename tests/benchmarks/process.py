"""Runs a command by itself, and tells how long it took and how much memory it needed."""

from __future__ import annotations

import contextlib
import io
import os
import runpy
import subprocess
import sys
import tempfile
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from unittest import mock

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


_TOGETHER: list[bool] = []
"""Not empty while everything runs in this process."""


def all_in_this_process() -> None:
    """From here on `python` starts no process: what has been loaded once is there. Memory then says nothing."""
    _TOGETHER.append(True)


def python(*arguments: str, within: Path = ROOT, cache: Path | None = None, epoch: str = "1780300800") -> Run:
    """Run a module (`-m NAME …`) in a process of its own, as if it were the day of `epoch` (seconds since 1970).

    Args:
        arguments: as Python takes them.
        within: the current directory.
        cache: folder of the cache; None: without one.
        epoch: that day.

    Raises:
        SystemExit: it failed; a benchmark of something broken is none.
    """
    own = {"NO_MKDOCS_2_WARNING": "true", "SOURCE_DATE_EPOCH": epoch, "KBTOOLS_CACHE": str(cache or "off")}
    if _TOGETHER:
        return _here(arguments, within, own)
    environment = {**os.environ, **own}
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


def _here(arguments: Sequence[str], within: Path, own: Mapping[str, str]) -> Run:
    started, busy = time.perf_counter(), time.process_time()
    said = io.StringIO()
    with (
        contextlib.chdir(within),
        mock.patch.dict(os.environ, own),
        mock.patch.object(sys, "argv", list(arguments[1:])),
    ):
        try:
            with contextlib.redirect_stdout(said):
                runpy.run_module(arguments[1], run_name="__main__", alter_sys=True)
        except SystemExit as ended:
            if ended.code:
                raise SystemExit(f"{_shown(arguments)} failed:\n{ended.code} {said.getvalue()[-3000:]}") from ended
    seconds, processor = time.perf_counter() - started, time.process_time() - busy
    return Run(seconds=seconds, processor=processor, megabytes=1, output=said.getvalue())


def _shown(arguments: Sequence[str]) -> str:
    return " ".join(("python", *arguments))
