"""The mistakes that volunteers make, each named at its line in words that tell what to do (`mistakes.yml`)."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import Any

import pytest
import yaml

from kbtools.diagnostics import Finding
from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import shapes, tables
from kbtools.linting.run import lint
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from kbtools.rules import samples
from tests.support.places import TESTS

SHAPES = shapes()
MISTAKES: list[dict[str, Any]] = yaml.safe_load((TESTS / "linting" / "mistakes.yml").read_text("utf-8"))
PATHS = {
    "fault": "faults/charging/lamp-flickers.yml",
    "case": "cases/2026/wren-400-0001.yml",
    "ammeter": "faults/charging/ammeter-at-zero.yml",
}


def made(row: dict[str, Any]) -> tuple[str, dict[str, str]]:
    """The path with the mistake, and the base with it."""
    files = dict(samples.FILES)
    path = PATHS.get(row["file"], row["file"])
    text = row.get("new", "")
    if path in files:
        text = files[path]
        if "old" in row:
            assert text.count(row["old"]) == 1, f"{row['old']!r} stands once in {path}"
            text = text.replace(row["old"], row["new"])
    place = row.get("as", path)
    files[place] = text
    return place, files


def findings(row: dict[str, Any]) -> tuple[str, list[Finding]]:
    place, files = made(row)
    sources = [SourceFile(path=each, data=text.encode()) for each, text in files.items()]
    return place, lint(read(sources, SHAPES, tables=tables()), rulebook(), dt.date(2026, 6, 1))


def lacking(row: dict[str, Any], finding: Finding) -> Iterator[str | list[str]]:
    said = f"{finding.message} {finding.hint}".casefold()
    for words in row["says"]:
        some = [words] if isinstance(words, str) else words
        if not any(each.casefold() in said for each in some):
            yield words


@pytest.mark.parametrize("row", MISTAKES, ids=lambda row: row["id"])
def test_a_mistake_is_named_at_its_line_with_what_to_do(row: dict[str, Any]) -> None:
    place, found = findings(row)
    here = [each for each in found if each.path == place and each.mark.line == row["line"]]
    told = "\n".join(f"{each.path}:{each.mark.line}: {each.rule} {each.message} | {each.hint}" for each in found)
    assert "mapping" not in told.casefold()
    well = [] in [list(lacking(row, each)) for each in here]
    assert well is ("untold" not in row), told or "nothing was found"


def test_a_third_of_the_mistakes_is_kept() -> None:
    kept = sum(row.get("kept", False) for row in MISTAKES)
    assert len(MISTAKES) >= 70
    assert 3 * kept >= len(MISTAKES)
