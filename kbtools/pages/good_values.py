"""What is good on which machine, as pages say it."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from kbtools.index.answers import Index
from kbtools.model.check import Check
from kbtools.model.money import Range, show_range
from kbtools.pages.lines import Link
from kbtools.wording import addresses
from kbtools.wording.labels import show_years


@dataclass(frozen=True, slots=True, kw_only=True)
class ExceptionView:
    """Machines on which another range is good."""

    model: Link
    """The model."""
    years: str
    """In words."""
    good: str
    """The range with its unit."""
    because: str | None
    """Markdown."""


def good_words(good: Range | None, unit: str | None) -> str | None:
    """A range with its unit; None where there is none."""
    if good is None:
        return None
    return f"{show_range(good)}\u00a0{unit}" if unit else show_range(good)


def exceptions(check: Check, index: Index, models: Collection[str]) -> tuple[ExceptionView, ...]:
    """Where another range is good than the reading's own, of these models."""
    unit = check.reading.unit if check.reading is not None else None
    return tuple(
        ExceptionView(
            model=Link(address=addresses.model(model.id), title=model.name),
            years=show_years(row.years),
            good=good_words(row.good, unit) or "",
            because=row.because,
        )
        for row in check.good_for
        if row.model in models and (model := index.base.models.get(row.model)) is not None
    )
