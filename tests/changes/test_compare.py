"""What an edit does to the published advice: the edits of `edits.py`, which were reckoned by hand."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

import pytest

from kbtools.changes.compare import Change, Compared, compared
from kbtools.edges.shipped import shapes, tables
from kbtools.index.build import build_index
from kbtools.model.base import KnowledgeBase
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from tests.changes.edits import BASE, CARE, EDITS, LAMP, LEVER, NOT_RIDDEN, WORKSHOP, Edit, Told, club, edit


def base_of(files: Mapping[str, str]) -> KnowledgeBase:
    sources = [SourceFile(path=path, data=text.encode()) for path, text in sorted(files.items())]
    return read(sources, shapes(), tables=tables()).base


def edited(changed: Edit) -> dict[str, str]:
    return {path: text for path, text in {**BASE, **changed}.items() if text is not None}


def held(changed: Edit, before: Mapping[str, str] = BASE) -> Compared:
    return compared(
        base_of(before),
        base_of(edited(changed)),
        frozenset(changed),
        lambda base: build_index(base, dt.date(2026, 6, 1)),
    )


def said(change: Change, asked: str) -> object:
    """What is said of one thing that a row of the table names."""
    before, now = change.before, change.now
    if asked in {"state", "milder", "because"}:
        return getattr(change, asked)
    if asked == "level":
        return (before and before.level, now and now.level)
    assert before is not None
    assert now is not None
    if asked in {"gone", "new"}:
        one, other = (before.signs, now.signs) if asked == "gone" else (now.signs, before.signs)
        return tuple(sorted(one - other))
    if asked == "shares":
        return before.plan.shares != now.plan.shares
    if asked in {"dearer", "dearer_at_all"}:
        assert before.plan.hand_over is not None
        assert now.plan.hand_over is not None
        dearer = now.plan.hand_over - before.plan.hand_over
        return dearer > 0 if asked == "dearer_at_all" else round(dearer, 6)
    return (getattr(before.plan, asked), getattr(now.plan, asked))


def test_the_base_has_no_error_that_an_edit_would_hide() -> None:
    assert not [fault for fault in base_of(BASE).faults.values() if fault.damaged]
    assert held({}).changes == ()


@pytest.mark.parametrize(("changed", "told"), EDITS.values(), ids=EDITS.keys())
def test_an_edit(changed: Edit, told: Told) -> None:
    found = {change.fault: change for change in held(changed).changes}
    assert found.keys() == told.keys()
    for fault, expected in told.items():
        assert {asked: said(found[fault], asked) for asked in expected} == expected


def test_a_shared_check_that_an_entry_uses() -> None:
    using = {**BASE, LAMP: BASE[LAMP].replace("sources:", "  - {use: battery-rest, low_points_to: [stator]}\nsources:")}
    found = held({LAMP: using[LAMP], **edit("checks.yml", "minutes: 12", "minutes: 120")}, using)
    assert [(each.fault, each.because) for each in found.changes] == [("lamp-flickers", ("checks.yml", LAMP))]


def test_milder_ones_stand_first() -> None:
    changed = {**edit(LAMP, "price: 200", "price: 250"), **edit(LEVER, NOT_RIDDEN, CARE)}
    assert [each.fault for each in held(changed).changes] == ["lever-soft", "lamp-flickers"]


def test_the_keys_of_the_club_are_named() -> None:
    assert held(club("labour_rate: 80", "labour_rate: [80, 90]")).club_keys == ("labour_rate 80 → 80 to 90",)


@pytest.mark.parametrize("side", ["before", "now"])
def test_an_entry_that_cannot_be_read_is_named_and_the_rest_is_compared(side: str) -> None:
    broken = {**BASE, LEVER: BASE[LEVER].replace("causes:", "causes: 5\nx:")}
    other = edit(LAMP, WORKSHOP, CARE)
    found = held(other, broken) if side == "before" else held({**other, LEVER: broken[LEVER]})
    assert found.unread == ((side, LEVER),)
    assert [(each.fault, each.milder) for each in found.changes] == [("lamp-flickers", True)]


@pytest.mark.parametrize("side", ["before", "now"])
def test_without_a_club_the_levels_are_compared(side: str) -> None:
    broken = BASE["club.yml"].replace("currency: EUR", "currency: 5")
    other = edit(LAMP, WORKSHOP, CARE)
    found = held(other, {**BASE, "club.yml": broken}) if side == "before" else held({**other, "club.yml": broken})
    assert found.unread == ((side, "club.yml"),)
    assert [(each.fault, each.milder) for each in found.changes] == [("lamp-flickers", True)]
