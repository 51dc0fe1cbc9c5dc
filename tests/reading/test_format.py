"""What the number of the format changes, and values with a unit."""

from __future__ import annotations

import datetime as dt

import pytest

from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import shapes
from kbtools.linting.run import lint
from kbtools.model.base import KnowledgeBase
from kbtools.model.money import Speed, parse_speed
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from kbtools.rules.samples import FILES

SHAPES = shapes()
CHECK = "faults/charging/lamp-flickers.yml"


def reading(changes: dict[str, str]) -> list[SourceFile]:
    return [SourceFile(path=path, data=text.encode()) for path, text in {**FILES, **changes}.items()]


def base(**changes: str) -> KnowledgeBase:
    files = {"club.yml": FILES["club.yml"].replace("format: 2\n", changes.get("club", "format: 2\n"))}
    if "finds" in changes:
        files[CHECK] = FILES[CHECK].replace("    minutes: 5\n", f"    minutes: 5\n    finds: {changes['finds']}\n")
    return read(reading(files), SHAPES).base


@pytest.mark.parametrize(("club", "finds"), [("", 1.0), ("format: 1\n", 1.0), ("format: 2\n", 0.9)])
def test_what_a_check_finds_that_does_not_say_is_the_formats(club: str, finds: float) -> None:
    # The format's own words: 1 in format 1, 0.9 in format 2.
    (check,) = base(club=club).faults["lamp-flickers"].checks
    assert (check.finds, check.finds_said) == (finds, False)


@pytest.mark.parametrize("club", ["", "format: 2\n"])
def test_what_a_check_says_that_it_finds_holds_in_any_format(club: str) -> None:
    (check,) = base(club=club, finds="0.6").faults["lamp-flickers"].checks
    assert (check.finds, check.finds_said) == (0.6, True)


def test_files_without_a_format_are_told_once_and_those_that_say_it_never() -> None:
    def told(club: str) -> list[tuple[str, int]]:
        text = FILES["club.yml"].replace("format: 2\n", club)
        found = lint(read(reading({"club.yml": text}), SHAPES), rulebook(), dt.date(2026, 6, 1))
        return [(each.path, each.mark.line) for each in found if each.rule == "KB720"]

    assert told("") == [("club.yml", 1)]
    assert told("format: 1\n") == told("format: 2\n") == []


@pytest.mark.parametrize(
    ("text", "speed"),
    [
        ("50 km/h", Speed(value=50, unit="km/h")),
        ("30mph", Speed(value=30, unit="mph")),
        ("50", None),
        ("50 km", None),
        ("fast", None),
    ],
)
def test_a_speed_has_its_unit(text: str, speed: Speed | None) -> None:
    assert parse_speed(text) == speed


def test_a_mile_an_hour_is_a_mile_an_hour() -> None:
    # The mile of the agreement of 1959: 1609.344 m.
    assert Speed(value=100, unit="mph").kmh == pytest.approx(160.9344)
