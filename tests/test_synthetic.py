"""The generator of knowledge bases: valid, the same for the same seed, and as long as real entries are."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from kbtools.edges.checking import check
from kbtools.edges.folder import load
from tests.support.places import DEMO
from tests.support.synthetic import write_base

TODAY = dt.date(2026, 6, 1)


def contents(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*.*")}


def test_a_generated_base_has_no_error(tmp_path: Path) -> None:
    write_base(tmp_path, faults=60, cases=200)
    result = check(tmp_path, TODAY)
    assert [finding for finding in result.findings if finding.severity == "error"] == []
    assert (len(result.base.faults), len(result.base.cases)) == (60, 200)


@pytest.mark.thorough
def test_another_seed_has_no_error_either_and_other_files(tmp_path: Path) -> None:
    write_base(tmp_path / "one", faults=130, cases=300, seed=1)
    write_base(tmp_path / "two", faults=130, cases=300, seed=2)
    assert check(tmp_path / "two", TODAY).sound
    assert contents(tmp_path / "one") != contents(tmp_path / "two")


def test_the_same_seed_gives_the_same_files(tmp_path: Path) -> None:
    write_base(tmp_path / "one", faults=60, cases=200, seed=7)
    write_base(tmp_path / "two", faults=60, cases=200, seed=7)
    assert contents(tmp_path / "one") == contents(tmp_path / "two")


def test_bases_of_odd_sizes_are_valid_too(tmp_path: Path) -> None:
    for faults, cases in ((0, 0), (0, 3), (1, 5), (2, 0), (2, 600)):
        folder = tmp_path / f"{faults}-{cases}"
        write_base(folder, faults=faults, cases=cases)
        assert check(folder, TODAY).sound


def test_entries_are_as_long_as_those_of_the_demo(tmp_path: Path) -> None:
    write_base(tmp_path, faults=60, cases=200)
    for kind in ("faults", "cases"):
        sizes = [[path.stat().st_size for path in (folder / kind).glob("*/*.yml")] for folder in (tmp_path, DEMO)]
        made, real = (sum(each) / len(each) for each in sizes)
        assert 0.75 < made / real < 1.33, kind


def test_codes_are_shared_by_faults_and_grow_with_them(tmp_path: Path) -> None:
    distinct = []
    for faults in (100, 400):
        write_base(tmp_path / str(faults), faults=faults, cases=0)
        base = load(tmp_path / str(faults)).base
        rows = [row.read.text for fault in base.faults.values() for row in fault.codes]
        distinct.append(len(set(rows)))
        assert len(rows) > 1.5 * len(set(rows))
    assert distinct[1] > 3 * distinct[0]
