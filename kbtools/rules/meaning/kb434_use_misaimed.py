"""KB434: shared check whose results cannot come out so."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.checks import meanings, uses
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Uses that say what a bad result means of a check that measures, or what low means of one that does not."""
    for check_id, rows in uses(base).items():
        shared = base.checks.get(check_id)
        if shared is None or not shared.whole:
            continue
        for fault, each in rows:
            measured = shared.check.reading is not None
            if measured and each.points_to:
                key, hint = "points_to", "It measures something: write `low_points_to`, `high_points_to` or both."
            elif not measured and each.reading is not None:
                key = "low_points_to" if meanings(each).get("low_points_to") else "high_points_to"
                hint = "It measures nothing: write `points_to`, what a bad result means."
            else:
                continue
            message = f'The shared check "{short(check_id)}" has no result for `{key}`.'
            yield Breach(path=fault.path, pointer=f"{each.at}/{key}", message=message, hint=hint, at_key=True)


RULE = Rule(
    code="KB434",
    title="Shared check that cannot come out so",
    severity="error",
    what=(
        "A row with `use` that has `points_to` where the shared check measures something, or `low_points_to` or "
        "`high_points_to` where it does not."
    ),
    why="The result that the row speaks of never comes.",
    sample=Sample(
        path="faults/charging/battery-flat.yml",
        instead_of="checks: [{use: battery-rest}]\n",
        bad="causes: [{id: leak}]\nchecks: [{use: battery-rest, points_to: [leak]}]\n",
        good="causes: [{id: leak}]\nchecks: [{use: battery-rest, low_points_to: [leak]}]\n",
    ),
    alone="any day",
    check=check,
)
