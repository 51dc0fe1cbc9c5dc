"""A second process is begun only where there is memory for it.

The files' forms: Linux's proc(5) and cgroups(7), and the kernel's documents of both versions of control groups.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from kbtools.edges.room import room_for_two

TAKEN = "Name:\tpython\nVmRSS:\t  450000 kB\n"
NEW = "0::/jobs/build\n"
OLD = "7:cpu,memory:/jobs/build\n3:pids:/other\n"


def machine(root: Path, available: str, cgroup: str = "", files: dict[str, str] | None = None) -> Path:
    told = {
        "proc/meminfo": f"MemTotal: 9000000 kB\nMemAvailable: {available}\n" if available else "",
        "proc/self/status": TAKEN,
        "proc/self/cgroup": cgroup,
        **{f"sys/fs/cgroup/{name}": text for name, text in (files or {}).items()},
    }
    for name, text in told.items():
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_text(text)
    return root


@pytest.mark.parametrize(("available", "room"), [("1000000 kB", True), ("800000 kB", False), ("", True)])
def test_room_is_twice_of_what_this_process_has(tmp_path: Path, available: str, room: bool) -> None:
    assert room_for_two(machine(tmp_path, available)) is room


@pytest.mark.parametrize("folder", ["", "jobs/build/"], ids=["seen from inside", "by its name"])
@pytest.mark.parametrize(
    ("limit", "taken", "files", "room"),
    [
        ("max", 1_000, 0, True),
        ("2000000000", 1_500_000_000, 0, False),
        # A gigabyte of it is files that were read once.
        ("2000000000", 1_500_000_000, 1_000_000_000, True),
    ],
)
def test_a_control_group_may_leave_less(  # noqa: PLR0917 (one row of a table)
    tmp_path: Path, folder: str, limit: str, taken: int, files: int, room: bool
) -> None:
    group = {
        f"{folder}memory.max": limit,
        f"{folder}memory.current": str(taken),
        f"{folder}memory.stat": f"anon 5\ninactive_file {files}\n",
    }
    assert room_for_two(machine(tmp_path, "8000000 kB", NEW, group)) is room


@pytest.mark.parametrize(("limit", "room"), [("9223372036854771712", True), ("2000000000", False)])
def test_a_control_group_of_the_first_version_too(tmp_path: Path, limit: str, room: bool) -> None:
    group = {"memory/jobs/build/memory.limit_in_bytes": limit, "memory/jobs/build/memory.usage_in_bytes": "1500000000"}
    assert room_for_two(machine(tmp_path, "8000000 kB", OLD, group)) is room


def test_where_nothing_is_told_there_is_room(tmp_path: Path) -> None:
    assert room_for_two(tmp_path / "none")
