"""Shared checks: whole in each entry that uses them, first in their systems, other figures on some machines."""

from __future__ import annotations

from kbtools.edges.shipped import shapes, tables
from kbtools.index.checks import first_looks, good_on, own_checks, uses, written
from kbtools.model.base import KnowledgeBase
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from kbtools.rules.samples import FILES

SHARED = """\
checks:
  - id: battery-rest
    do: Measure across the posts.
    reading: {at: battery posts, when: at rest, good: [12.5, 12.9], unit: V}
    good_for: [{model: wren-400, years: 2010-2012, good: [13.1, 13.4], because: Lithium battery}]
    sources: [{kind: manual, title: Handbook}]
    minutes: 12
    skill: home
    tools: [multimeter]
    look_first_for: [charging]
  - id: clamps
    do: Try to turn each clamp.
    expect: Neither moves.
    minutes: 1
    skill: home
    look_first_for: [brakes, charging]
"""
FAULT = """\
title: Starter only clicks
system: charging
draft: true
causes: [{id: battery-old}]
checks:
  - {id: look, do: Look at it., expect: Clean.}
  - {use: battery-rest, low_points_to: [battery-old], finds: 0.7, before_riding: true}
  - {use: clamps, points_to: [battery-old]}
"""
PATH = "faults/charging/clicks.yml"


def base(shared: str | None = SHARED) -> KnowledgeBase:
    files = {**FILES, PATH: FAULT}
    if shared is None:
        del files["checks.yml"]
    else:
        files["checks.yml"] = shared
    sources = [SourceFile(path=path, data=text.encode()) for path, text in files.items()]
    return read(sources, shapes(), tables=tables()).base


def test_an_entry_has_its_shared_checks_whole_with_what_they_mean_there() -> None:
    _, rest, clamps = base().faults["clicks"].checks
    assert (rest.id, rest.do, rest.minutes, rest.tools) == (
        "battery-rest",
        "Measure across the posts.",
        12,
        ("multimeter",),
    )
    assert rest.reading is not None
    assert (rest.reading.place, rest.reading.low_points_to) == ("battery posts", ("battery-old",))
    assert (rest.finds, rest.before_riding) == (0.7, True)
    # The shared check says neither; what a check finds that says nothing is 0.9 in a base of format 2.
    assert (clamps.finds, clamps.before_riding, clamps.points_to) == (0.9, False, ("battery-old",))


def test_a_use_without_its_shared_check_still_says_what_it_points_to() -> None:
    whole = base(None)
    rest = whole.faults["clicks"].checks[1]
    assert (rest.id, rest.do) == ("battery-rest", None)
    assert not whole.faults["clicks"].intact("/checks/1/minutes")
    assert "shared check" not in whole.unsure


def test_each_check_is_written_once_and_known_by_its_users() -> None:
    whole = base()
    assert [each.id for path, each in written(whole) if path in {"checks.yml", PATH}] == [
        "battery-rest",
        "clamps",
        "look",
    ]
    assert [each.id for each in own_checks(whole.faults["clicks"])] == ["look"]
    assert [fault.id for fault, _ in uses(whole)["battery-rest"]] == ["battery-flat", "clicks"]


def test_what_needs_no_tools_is_looked_at_first() -> None:
    assert [each.id for each in first_looks(base(), ["charging"])] == ["clamps", "battery-rest"]
    assert [each.id for each in first_looks(base(), ["brakes", None])] == ["clamps"]


def test_what_is_good_depends_on_the_machine() -> None:
    rest = base().faults["clicks"].checks[1]
    found = {year: good_on(rest, "wren-400", year) for year in (2009, 2010)}
    assert [(each.low, each.high) for each in found.values() if each is not None] == [(12.5, 12.9), (13.1, 13.4)]
