"""What jobs are called, on the page and in the terminal."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final, Protocol

JOBS: Final[Mapping[str, str]] = {
    "mend": "Mend",
    "ride-advice": "Settle the ride advice",
    "second-reader": "Find a second reader",
    "shared-cause": "Add a cause",
    "review": "Read again",
    "near-duplicate": "One or two?",
    "sort-case": "Sort a case",
    "dead-link": "Renew a link",
    "contradiction": "Settle what contradicts",
    "draft": "Finish a draft",
}
"""Kind of a job → what is to be done, in a few words."""


class Timed(Protocol):
    """What takes a while, now or in some months."""

    @property
    def minutes(self) -> int:
        """About how long it takes."""

    @property
    def months(self) -> int:
        """In so many months; 0: now."""


def hours(minutes: int) -> str:
    """About how long, in words: `20 min`, `1 h`, `2 h 30 min`."""
    whole, rest = divmod(minutes, 60)
    if not whole:
        return f"{rest} min"
    return f"{whole} h {rest} min" if rest else f"{whole} h"


def summary(jobs: Sequence[Timed]) -> str:
    """How much there is to do now, in a sentence."""
    now = [each for each in jobs if each.months == 0]
    later = len(jobs) - len(now)
    if not now:
        return f"Nothing to do now; {later} later within a year." if later else "Nothing to do."
    said = f"{len(now)} {'job' if len(now) == 1 else 'jobs'} now, about {hours(sum(each.minutes for each in now))}"
    return f"{said}, most useful first" + (f"; {later} later within a year." if later else ".")
