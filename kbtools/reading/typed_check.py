"""Typed values of checks: a fault's own ones, and those of `checks.yml` as a fault uses them."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Final

from kbtools.model.check import Check, GoodFor, Reading, Use
from kbtools.model.shared import SharedCheck
from kbtools.reading.rows import Row
from kbtools.reading.typed_catalogue import pictures, years

NOTHING_SHARED: Final[Mapping[str, SharedCheck]] = MappingProxyType({})
"""A knowledge base without `checks.yml`."""


def checks(row: Row, unsaid: float, shared: Mapping[str, SharedCheck]) -> Iterator[Check]:
    """The checks of a fault, those that it shares whole.

    Args:
        row: the fault.
        unsaid: what a check finds that does not say.
        shared: the shared checks by id.
    """
    for each in row.rows("checks"):
        if each.has("use"):
            yield _used(each, unsaid, shared)
        elif each.has("id"):
            yield own(each, unsaid)


def own(row: Row, unsaid: float) -> Check:
    """A check that stands whole in its row, which has an id."""
    finds = row.number("finds")
    return Check(
        id=row.text("id") or "",
        do=row.text("do"),
        expect=row.text("expect"),
        points_to=row.texts("points_to"),
        reading=_reading(row.row("reading")),
        finds=unsaid if finds is None else finds,
        finds_said=finds is not None,
        before_riding=row.flag("before_riding"),
        only_while_present=row.flag("only_while_present"),
        bike=row.choice("bike", "off"),
        speed=row.speed("speed"),
        minutes=row.number("minutes"),
        cost=row.number("cost") or 0.0,
        skill=row.choice("skill"),
        access=row.texts("access"),
        tools=row.texts("tools"),
        cautions=row.texts("cautions"),
        pictures=pictures(row),
        good_for=tuple(_good_for(row)),
        at=row.at,
    )


def _used(row: Row, unsaid: float, shared: Mapping[str, SharedCheck]) -> Check:
    """The shared check as a fault uses it: its words and its work, the row's meaning."""
    identity = row.text("use") or ""
    known = shared.get(identity)
    whole = known.check if known is not None else dataclasses.replace(own(row, unsaid), id=identity, finds_said=False)
    finds = row.number("finds")
    return dataclasses.replace(
        whole,
        points_to=row.texts("points_to"),
        reading=_used_reading(row, whole.reading),
        finds=whole.finds if finds is None else finds,
        finds_said=whole.finds_said or finds is not None,
        before_riding=whole.before_riding or row.flag("before_riding"),
        use=Use(finds_said=finds is not None, before_riding=row.flag("before_riding"), known=known is not None),
        at=row.at,
    )


def _used_reading(row: Row, reading: Reading | None) -> Reading | None:
    """The reading with the two sides of the row that uses it, at whose place these sides stand."""
    low, high = row.texts("low_points_to"), row.texts("high_points_to")
    if reading is None and not (low or high):
        return None
    measured = reading or Reading(
        place=None, when=None, good=None, unit=None, low_points_to=(), high_points_to=(), at=row.at
    )
    return dataclasses.replace(measured, low_points_to=low, high_points_to=high, at=row.at)


def _good_for(row: Row) -> Iterator[GoodFor]:
    for each in row.rows("good_for"):
        model, span, good = each.text("model"), years(each), each.range("good")
        if model is not None and span is not None and good is not None:
            yield GoodFor(model=model, years=span, good=good, because=each.text("because"), at=each.at)


def _reading(row: Row | None) -> Reading | None:
    if row is None:
        return None
    return Reading(
        place=row.text("at"),
        when=row.text("when"),
        good=row.range("good"),
        unit=row.text("unit"),
        low_points_to=row.texts("low_points_to"),
        high_points_to=row.texts("high_points_to"),
        at=row.at,
    )
