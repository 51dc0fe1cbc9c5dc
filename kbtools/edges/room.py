"""How much memory is left for a second process, where the system tells."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Final

_ROOT: Final = Path("/")
_GROUPS: Final = Path("sys/fs/cgroup")
_LIMITS: Final = (
    ("", "memory.max", "memory.current", "inactive_file"),
    ("memory", "memory.limit_in_bytes", "memory.usage_in_bytes", "total_inactive_file"),
)
"""Of control groups of both versions: their folder, its files of the limit and of what is taken, the row of files."""


def room_for_two(root: Path = _ROOT) -> bool:
    """Whether twice as much memory is free as this process has taken.

    A fork shares what is there, but not for long, and both take more as they work.

    Args:
        root: where `proc` and `sys` are.

    Returns:
        True as well where the system tells nothing.
    """
    free = [_kilobytes(root / "proc/meminfo", "MemAvailable"), *_left_in_groups(root)]
    taken = _kilobytes(root / "proc/self/status", "VmRSS")
    return taken is None or all(each > 2 * taken for each in free if each is not None)


def _kilobytes(file: Path, name: str) -> float | None:
    return next((float(words[1]) for words in _lines(file) if words[0] == f"{name}:"), None)


def _left_in_groups(root: Path) -> Iterator[float]:
    """Kilobytes that each control group may still take; files that were read once count as free."""
    own = [" ".join(words).split(":", 2) for words in _lines(root / "proc/self/cgroup")]
    for controller, limit, taken, files in _LIMITS:
        top = root / _GROUPS / controller
        paths = [path.lstrip("/") for _, names, path in own if controller in names.split(",")]
        # In a container the group is the top of what is seen, whatever it is called outside.
        for folder in {top, *(top / path for path in paths)}:
            most, now = _lines(folder / limit), _lines(folder / taken)
            if most and now and most[0][0] != "max":
                let_go = next((float(words[1]) for words in _lines(folder / "memory.stat") if words[0] == files), 0.0)
                yield (float(most[0][0]) - float(now[0][0]) + let_go) / 1024


def _lines(file: Path) -> list[list[str]]:
    try:
        return [words for line in file.read_text("ascii").splitlines() if (words := line.split())]
    except (OSError, UnicodeDecodeError):
        return []
