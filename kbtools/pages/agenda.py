"""What the curators do next, as a page: what is to be done now, and what has its turn later."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from kbtools.agenda.job import Job
from kbtools.index.answers import Index
from kbtools.index.entries import drafts
from kbtools.pages import crumbs
from kbtools.pages.spec import PageSpec, Section
from kbtools.wording import addresses
from kbtools.wording.agenda import JOBS, hours, summary

MOST: Final = 60
"""Jobs of a list that are shown; of the others the number is told."""
_TITLES: Final = {"now": "Now", "later": "Later within a year"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One job."""

    what: str
    """What is to be done."""
    subject: str
    """Title of the entry that it is about; of other files the id or the path. Hostile."""
    address: str | None
    """Page of the entry; None: it has none."""
    why: str
    """What makes it a job. Hostile."""
    takes: str
    """About how long, in words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """The first of a list of jobs."""

    shown: tuple[Line, ...]
    """Those that are named."""
    more: int
    """How many others there are."""


def pages(index: Index, jobs: Sequence[Job]) -> Iterator[PageSpec]:
    """The one page.

    Args:
        index: of the knowledge base.
        jobs: most useful first.
    """
    unsaid, jobs = _of_drafts(index, jobs)
    lists = {
        "now": _lines(index, [job for job in jobs if job.months == 0]),
        "later": _lines(index, [job for job in jobs if job.months > 0]),
    }
    yield PageSpec(
        address=addresses.AGENDA,
        kind="agenda",
        title=addresses.AGENDA_TITLE,
        description="For those who look after the entries: what to read again, to settle, to sort and to finish, most "
        "useful first, with why and about how long.",
        context={"summary": summary(jobs), "unsaid": unsaid, **lists},
        crumbs=(crumbs.HOME_CRUMB,),
        sections=tuple(Section(id=name, title=_TITLES[name]) for name, each in lists.items() if each.shown),
        listed=False,
    )


def _of_drafts(index: Index, jobs: Sequence[Job]) -> tuple[int, Sequence[Job]]:
    """How many jobs are about entries that are not published, of which no page tells, and the others."""
    ids = [each.id for each in drafts(index.base)]
    shown = [job for job in jobs if not any(each in f"{job.subject} {job.path} {job.why}" for each in ids)]
    return len(jobs) - len(shown), shown


def _lines(index: Index, jobs: Iterable[Job]) -> Lines:
    lines = [_line(index, job) for job in jobs]
    return Lines(shown=tuple(lines[:MOST]), more=max(len(lines) - MOST, 0))


def _line(index: Index, job: Job) -> Line:
    fault = index.published.get(job.subject)
    return Line(
        what=JOBS[job.job],
        subject=job.subject if fault is None else fault.title,
        address=None if fault is None else addresses.fault(fault.id),
        why=job.why,
        takes=hours(job.minutes),
    )
