"""One job for a curator."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

JobKind = Literal[
    "mend",
    "ride-advice",
    "second-reader",
    "shared-cause",
    "review",
    "near-duplicate",
    "sort-case",
    "dead-link",
    "contradiction",
    "draft",
]
"""What is to be done; in the order of use: what can hurt somebody first, what only looks untidy last."""

MINUTES: Final[dict[JobKind, int]] = {
    "mend": 5,
    "ride-advice": 15,
    "second-reader": 20,
    "shared-cause": 20,
    "review": 15,
    "near-duplicate": 20,
    "sort-case": 10,
    "dead-link": 5,
    "contradiction": 10,
    "draft": 15,
}
"""About how long it takes. Our own judgement, no source: they are there to fill an afternoon, not to be kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One job."""

    job: JobKind
    """What is to be done."""
    subject: str
    """Id of the entry or case that it is about, or the path of another file."""
    why: str
    """What makes it one, a sentence or two; texts of authors in it are hostile."""
    minutes: int
    """About how long it takes."""
    path: str
    """File to open, relative to the knowledge base's folder."""
    months: int = 0
    """In so many months; 0: now."""
    weight: float = 0.0
    """Of two jobs of a kind the heavier one comes first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DeadLink:
    """A link that did not answer when it was asked last."""

    path: str
    """File that has it, relative to the knowledge base's folder."""
    url: str
    """Hostile."""
    said: str
    """What came back, in words."""
    copied: bool = False
    """Whether an archived copy is named that did not die."""
