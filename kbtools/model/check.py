"""What is looked at or measured to find the cause of a fault, in the fault's own words or as a shared check has it.

Every row carries `at`, the JSON pointer of where it stands in its file.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from kbtools.model.catalogue import BikeState, Skill
from kbtools.model.money import Range, Speed
from kbtools.model.picture import Picture
from kbtools.model.years import Years

FINDS: Final = {1: 1.0, 2: 0.9}
"""Format of the files → what a check finds that does not say: no check finds all, but files of format 1 meant so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A measured value and what its two sides say."""

    place: str | None
    """Where to measure, Markdown; `at` in the file."""
    when: str | None
    """In which state, Markdown."""
    good: Range | None
    """Both limits belong to good, in `unit`."""
    unit: str | None
    """Unit of measurement, plain text."""
    low_points_to: tuple[str, ...]
    """Ids of causes that a reading below `good` speaks for."""
    high_points_to: tuple[str, ...]
    """Ids of causes that a reading above `good` speaks for."""
    at: str
    """JSON pointer of the mapping."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GoodFor:
    """Machines on which another range of a reading is good."""

    model: str
    """Id of a model."""
    years: Years
    """As written."""
    good: Range
    """Both limits belong to good, in the reading's unit."""
    because: str | None
    """Why it differs, Markdown."""
    at: str
    """JSON pointer of the row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """That a fault's check is a shared one of `checks.yml`, and what the fault's own row says besides what it means."""

    finds_said: bool
    """Whether the row has its own `finds`."""
    before_riding: bool
    """Whether the row has `before_riding`."""
    known: bool
    """Whether there is such a shared check; if not, the check says nothing but what it points to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """Something to look at or to measure; one that is shared stands here whole, as the fault uses it."""

    id: str
    """Unique within its fault; that of the shared check, where it is one."""
    do: str | None
    """Markdown."""
    expect: str | None
    """What a good bike shows, Markdown; None where there is a reading."""
    points_to: tuple[str, ...]
    """Ids of causes, one of which a bad result means."""
    reading: Reading | None
    """Instead of `expect` and `points_to`."""
    finds: float
    """Of ten bikes with such a cause it shows ten times so many; 1: a good result rules them out."""
    finds_said: bool
    """Whether the author gave that figure; if not it is the format's, and is shown nowhere."""
    before_riding: bool
    """To be done in any case before the bike is ridden again, whatever the plan finds."""
    only_while_present: bool
    """Says nothing while the fault is not there."""
    bike: BikeState
    """State of the bike during the check."""
    speed: Speed | None
    """How fast, of a check that is ridden."""
    minutes: float | None
    """Once access is open."""
    cost: float
    """Money spent on the check itself."""
    skill: Skill | None
    """Least skill that it takes."""
    access: tuple[str, ...]
    """Ids of access jobs."""
    tools: tuple[str, ...]
    """Ids of tools."""
    cautions: tuple[str, ...]
    """Ids of cautions."""
    at: str
    """JSON pointer of the row."""
    pictures: tuple[Picture, ...] = ()
    """Where to look."""
    good_for: tuple[GoodFor, ...] = ()
    """Machines on which another range of the reading is good; the first row that fits holds. Of shared checks only."""
    use: Use | None = None
    """Set where the fault uses a shared check; `at` is then that of its row, and what the row lacks stands there."""
