"""What is looked at first in a system, before any plan."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from kbtools.index.access import access_jobs
from kbtools.index.answers import Index
from kbtools.index.cautions import cautions_of_look
from kbtools.index.checks import first_looks
from kbtools.model.check import Check
from kbtools.model.money import show_number
from kbtools.pages.good_values import ExceptionView, exceptions, good_words
from kbtools.pages.views import AccessView
from kbtools.pages.work import access_views, tool_names


@dataclass(frozen=True, slots=True, kw_only=True)
class LookView:
    """A shared check that is looked at first."""

    id: str
    """Of the shared check."""
    do: str | None
    """Markdown."""
    expect: str | None
    """Markdown."""
    good: str | None
    """The good range with its unit."""
    place: str | None
    """Where to measure, and in which state; Markdown."""
    exceptions: tuple[ExceptionView, ...]
    """Machines on which another range is good."""
    minutes: str
    """A number."""
    access: tuple[AccessView, ...]
    """What must be open."""
    tools: tuple[str, ...]
    """Names of tools."""
    cautions: tuple[str, ...]
    """Markdown."""
    results: tuple[str, ...]
    """What can come out, good first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LooksView:
    """All that is looked at first."""

    rows: tuple[LookView, ...]
    """What an owner needs no tools for comes first."""
    minutes: str
    """Of all together, each access job once; a number."""


def looks_view(systems: Iterable[str | None], index: Index) -> LooksView | None:
    """What is looked at first in any of these systems; None where that is nothing."""
    checks = first_looks(index.base, systems)
    if not checks:
        return None
    jobs = access_jobs((job for check in checks for job in check.access), index.base)
    minutes = sum(check.minutes or 0.0 for check in checks) + sum(job.minutes for job in jobs)
    return LooksView(rows=tuple(_look(check, index) for check in checks), minutes=show_number(minutes))


def _look(check: Check, index: Index) -> LookView:
    base, reading = index.base, check.reading
    where = ", ".join(each for each in (reading.place, reading.when) if each) if reading is not None else ""
    jobs = access_jobs(check.access, base)
    return LookView(
        id=check.id,
        do=check.do,
        expect=check.expect,
        good=good_words(reading.good, reading.unit) if reading is not None else None,
        place=where or None,
        exceptions=exceptions(check, index, index.base.models),
        minutes=show_number(check.minutes or 0.0),
        access=access_views(jobs),
        tools=tool_names(check.tools, base),
        cautions=tuple(each.text for each in cautions_of_look(base, check)),
        results=("good", "bad") if reading is None else ("good", "low", "high"),
    )
