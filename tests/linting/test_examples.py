"""Whole files, good and bad, with the findings that a curator must get: each at its place, and no other."""

from __future__ import annotations

import datetime as dt
import re
from pathlib import Path

import pytest

from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import shapes, tables
from kbtools.linting.run import lint
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from kbtools.rules import samples
from tests.support.places import TESTS

EXAMPLES = TESTS / "examples"
FOLDERS = {"fault": "faults/charging/", "case": "cases/2026/", "model": "models/", "page": "pages/"}
SHAPES = shapes()


def findings(path: Path) -> list[str]:
    name, kind, suffix = path.name.split(".")
    place = f"{FOLDERS[kind]}{name}.{suffix}" if kind in FOLDERS else f"{kind}.yml"
    if b"\nsystem: brakes\n" in path.read_bytes():
        place = place.replace("charging", "brakes")
    files = {each: text.encode() for each, text in samples.FILES.items()}
    files[place] = path.read_bytes()
    # Pictures are looked at elsewhere; here they are simply there.
    named = re.findall(rb"file: ([a-z0-9.-]+[.]jpg)", files[place]) if path.parent.name == "good" else []
    files |= {f"pictures/{each.decode()}": b"its digest" for each in named}
    reading = read([SourceFile(path=each, data=data) for each, data in files.items()], SHAPES, tables=tables())
    # Most examples vary an entry of the sample base, and are alike to it by intent.
    found = [each for each in lint(reading, rulebook(), dt.date(2026, 6, 1)) if each.rule != "KB610"]
    assert all(finding.path == place for finding in found), found
    return sorted(f"{finding.rule} {finding.mark.line}:{finding.mark.column}" for finding in found)


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("good/*.*.*")), ids=lambda path: path.name)
def test_a_good_example_has_no_finding(path: Path) -> None:
    assert findings(path) == []


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("bad/*.*.*")), ids=lambda path: path.name)
def test_a_bad_example_has_just_the_findings_that_it_names(path: Path) -> None:
    expected = re.findall(r"^# expect: (KB[0-9]{3} [0-9]+:[0-9]+)$", path.read_text("utf-8"), re.MULTILINE)
    assert expected, "a bad example names its findings"
    assert findings(path) == sorted(expected)
