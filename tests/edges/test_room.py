"""A second process is begun only where there is memory for it. The files' forms: Linux's proc(5) and cgroups(7)."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbtools.edges.room import room_for_two

TAKEN = "Name:\tpython\nVmRSS:\t  900000 kB\n"


@pytest.mark.parametrize(
    ("available", "group", "room"),
    [
        ("1000000 kB", {}, True),
        ("800000 kB", {}, False),
        ("8000000 kB", {"max": "max", "current": "1000"}, True),
        ("8000000 kB", {"max": "2000000000", "current": "1500000000"}, False),
        # A gigabyte of it is files that were read once.
        (
            "8000000 kB",
            {"max": "2000000000", "current": "1500000000", "stat": "anon 5\ninactive_file 1000000000\n"},
            True,
        ),
        ("", {}, True),
    ],
)
def test_room_is_as_much_again_as_this_process_has(
    tmp_path: Path, available: str, group: dict[str, str], room: bool
) -> None:
    machine, own = tmp_path / "meminfo", tmp_path / "status"
    machine.write_text(f"MemTotal: 9000000 kB\nMemAvailable: {available}\n" if available else "")
    own.write_text(TAKEN)
    for name, text in group.items():
        (tmp_path / f"memory.{name}").write_text(text)
    assert room_for_two(machine, own, tmp_path) is room


def test_where_nothing_is_told_there_is_room(tmp_path: Path) -> None:
    assert room_for_two(tmp_path / "none", tmp_path / "none", tmp_path)
