"""How much memory is left for a second process, where the system tells."""

from __future__ import annotations

from pathlib import Path
from typing import Final

_MACHINE: Final = Path("/proc/meminfo")
_OWN: Final = Path("/proc/self/status")
_GROUP: Final = Path("/sys/fs/cgroup")
"""A container sees its own limits here."""


def room_for_two(machine: Path = _MACHINE, own: Path = _OWN, group: Path = _GROUP) -> bool:
    """Whether as much memory is free as this process has taken: a fork shares it at first, but not for long.

    Args:
        machine: what is free on the machine, in lines of a name and kilobytes.
        own: what this process has taken, likewise.
        group: folder with the limit of the control group, if it has one, and what the group has taken; bytes.

    Returns:
        True as well where the system tells nothing.
    """
    free = [each for each in (_kilobytes(machine, "MemAvailable"), _left(group)) if each is not None]
    taken = _kilobytes(own, "VmRSS")
    return taken is None or all(each > taken for each in free)


def _kilobytes(file: Path, name: str) -> float | None:
    return next((float(words[1]) for words in _lines(file) if words[0] == f"{name}:"), None)


def _left(group: Path) -> float | None:
    """Kilobytes that a control group may still take; files that were read once count as free."""
    limit, taken = (_lines(group / f"memory.{each}") for each in ("max", "current"))
    if not limit or not taken or limit[0][0] == "max":
        return None
    let_go = next((float(words[1]) for words in _lines(group / "memory.stat") if words[0] == "inactive_file"), 0.0)
    return (float(limit[0][0]) - float(taken[0][0]) + let_go) / 1024


def _lines(file: Path) -> list[list[str]]:
    try:
        return [words for line in file.read_text("ascii").splitlines() if (words := line.split())]
    except (OSError, UnicodeDecodeError):
        return []
