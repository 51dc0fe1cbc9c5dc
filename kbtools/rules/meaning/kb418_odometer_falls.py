"""KB418: odometer that falls."""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Iterator

from kbtools.index.entries import cases
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.money import Distance
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short

_ROUNDING = 1.0
"""Kilometres that two readings may differ by, as an odometer shows whole miles or kilometres."""


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Readings that are below the one before, of the same bike."""
    bikes: dict[str, list[tuple[dt.date, Distance, Case]]] = {}
    for case in cases(base):
        bike, seen, odometer = case.vehicle.bike, case.seen, case.vehicle.odometer
        if bike is not None and seen is not None and odometer is not None:
            bikes.setdefault(bike, []).append((seen, odometer, case))
    for bike, rows in bikes.items():
        # Of one day the lower reading came first.
        rows.sort(key=lambda row: (row[0], row[1].km))
        for (before, more, earlier), (_, less, case) in itertools.pairwise(rows):
            if _falls(more, less):
                message = f'The bike "{short(bike)}" had {more.text} on it already on {before.isoformat()}.'
                hint = f"See {earlier.path}; correct the reading, the day or the bike in one of the two."
                yield Breach(path=case.path, pointer="/vehicle/odometer", message=message, hint=hint)


def _falls(more: Distance, less: Distance) -> bool:
    return more.km - less.km > (0 if more.unit == less.unit else _ROUNDING)


RULE = Rule(
    code="KB418",
    title="Odometer that falls",
    severity="error",
    what="A case whose odometer shows less than an earlier case of the same bike.",
    why="One of the two readings, days or bikes is wrong, and the distances between failures come out wrong with it.",
    sample=Sample(
        path="cases/2026/wren-400-0002.yml",
        instead_of="",
        bad=(
            "vehicle: {model: wren-400, year: 2005, odometer: 4120 km, bike: b001}\nseen: 2026-04-01\noutcome: "
            "{state: open}\nsource: {kind: first-hand, title: Member report}\n"
        ),
        good=(
            "vehicle: {model: wren-400, year: 2005, odometer: 42120 km, bike: b001}\nseen: 2026-04-01\noutcome: "
            "{state: open}\nsource: {kind: first-hand, title: Member report}\n"
        ),
    ),
    check=check,
)
