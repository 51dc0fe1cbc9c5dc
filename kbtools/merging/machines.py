"""Rows of machines: what two entries, causes or recalls cover together."""

from __future__ import annotations

import dataclasses
from collections.abc import Hashable, Iterable, Sequence

from kbtools.model.fault import AppliesTo
from kbtools.model.years import union


def machines_of_both(*rows: AppliesTo) -> tuple[AppliesTo, ...]:
    """Rows that differ in their years only become one, where the years touch."""
    groups: dict[Hashable, list[AppliesTo]] = {}
    for row in rows:
        groups.setdefault(_but_years(row), []).append(row)
    return tuple(
        dataclasses.replace(group[0], years=years)
        for group in groups.values()
        for years in (union(row.years for row in group) if len(group) > 1 else (group[0].years,))
    )


def covered_by_either(own: Sequence[AppliesTo], theirs: Sequence[AppliesTo]) -> tuple[AppliesTo, ...]:
    """What two lists of rows cover together, where one without rows covers all."""
    return machines_of_both(*own, *theirs) if own and theirs else ()


def same_machines(left: Iterable[AppliesTo], right: Iterable[AppliesTo]) -> bool:
    """Whether two lists of rows say the same, in whatever order."""
    one, other = ({(_but_years(row), row.years) for row in machines_of_both(*rows)} for rows in (left, right))
    return one == other


def is_held(row: AppliesTo, by: Iterable[AppliesTo]) -> bool:
    """Whether one of the rows says the same of all its years."""
    return any(_but_years(each) == _but_years(row) and each.years.cut_to(row.years) == row.years for each in by)


def _but_years(row: AppliesTo) -> Hashable:
    return row.model, row.unit, row.only_if, row.note
