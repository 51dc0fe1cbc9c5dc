"""Runs what may run away in a child process that the kernel ends: time of the processor and memory are bounded.

No clock is asked: on a busy machine things take long, but they do not take more of the processor.
"""

from __future__ import annotations

import os
import pickle
import resource
import signal
import subprocess
import sys
import traceback
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any, Final, TypeVar

from tests.support.places import ROOT

SECONDS: Final = 10
"""Of the processor. What is tried takes well under one on a quiet machine; what runs away takes minutes and hours."""
MEGABYTES: Final = 600
"""Beyond what the process has before. What is tried takes some tens; what runs away takes all there is."""

T = TypeVar("T")
K = TypeVar("K", bound=Hashable)


def limited(
    work: Callable[..., T], *arguments: Any, seconds: int = SECONDS, megabytes: int = MEGABYTES, what: object = ""
) -> T:
    """What a function returns that is called in a fork of this process, which has everything loaded already.

    Raises:
        AssertionError: the child met a limit, or broke down; it says so.
    """
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        _answer(writing, work, arguments, seconds, megabytes)
    os.close(writing)
    with os.fdopen(reading, "rb") as answer:
        said = answer.read()
    _, status = os.waitpid(child, 0)
    ended = os.waitstatus_to_exitcode(status)
    assert ended == 0, f"{what}: {_ending(ended, seconds)}"
    good, result = pickle.loads(said)
    assert good, f"{what}: {result}"
    return result  # type: ignore[no-any-return]


def limited_each(
    work: Callable[[K], T], cases: Iterable[K], seconds: int = SECONDS, megabytes: int = MEGABYTES
) -> dict[K, T]:
    """What a function returns for each of many cases, each of which stays within the limits.

    A fork costs more than most cases do, so one does for all of them as long as all together stay within the limits of
    one. If they do not, each gets a fork of its own.

    Raises:
        AssertionError: a case met a limit, or broke down; it is named.
    """
    each = list(cases)
    try:
        return limited(lambda: {case: work(case) for case in each}, seconds=seconds, megabytes=megabytes)
    except AssertionError:
        return {case: limited(work, case, seconds=seconds, megabytes=megabytes, what=case) for case in each}


def _answer(writing: int, work: Callable[..., Any], arguments: Sequence[Any], seconds: int, megabytes: int) -> None:
    """Never returns: what the parent has begun is not the child's to end."""
    try:
        _limit(seconds, _taken() + megabytes * 1_000_000)
        try:
            said = pickle.dumps((True, work(*arguments)))
        except MemoryError:
            said = pickle.dumps((False, f"took more than {megabytes} MB"))
        except BaseException:
            said = pickle.dumps((False, traceback.format_exc()))
        with os.fdopen(writing, "wb") as answer:
            answer.write(said)
        os._exit(0)
    finally:
        os._exit(70)


def _limit(seconds: int, size: int) -> None:
    resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds + 1))
    if sys.platform == "linux":
        resource.setrlimit(resource.RLIMIT_AS, (size, size))


def _taken() -> int:
    """Bytes of addresses that the process has; 0 where that cannot be asked."""
    if sys.platform != "linux":
        return 0
    return int(Path("/proc/self/statm").read_text("ascii").split()[0]) * resource.getpagesize()


def _ending(code: int, seconds: int) -> str:
    if code in {-signal.SIGXCPU, -signal.SIGKILL}:
        return f"took more than {seconds} s of the processor"
    return f"ended with {code}"


def command(
    *arguments: str,
    cwd: Path = ROOT,
    environment: Mapping[str, str] | None = None,
    seconds: int = 60,
    megabytes: int = 2_000,
    stdout: int | Any = subprocess.PIPE,
    program: Sequence[str] = ("-m", "kbtools"),
) -> subprocess.CompletedProcess[str]:
    """Run the command line in a process of its own, under limits; its folder is `cwd`, its programs are these."""
    start = "import sys; from tests.support import limited; limited.take_over(sys.argv[1:])"
    given = {
        **os.environ,
        "KBTOOLS_CACHE": "off",
        "PYTHONPATH": str(ROOT),
        # Each of their threads would claim addresses.
        "OPENBLAS_NUM_THREADS": "1",
        **(environment or {}),
    }
    return subprocess.run(
        [sys.executable, "-c", start, str(seconds), str(megabytes), *program, *arguments],
        cwd=cwd,
        env=given,
        stdout=stdout,
        stderr=subprocess.PIPE,
        text=True,
        check=False,
    )


def take_over(arguments: Sequence[str]) -> None:
    """Become another Python under limits: seconds, megabytes, then its arguments."""
    seconds, megabytes, *rest = arguments
    _limit(int(seconds), int(megabytes) * 1_000_000)
    os.execv(sys.executable, [sys.executable, *rest])
