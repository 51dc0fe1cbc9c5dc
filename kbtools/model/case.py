"""One case report: what one machine showed, what was tried, how it ended."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Literal

from kbtools.model.codes import CodeReading
from kbtools.model.fault import SourceKind
from kbtools.model.money import Distance

CodeStatus = Literal["stored", "present", "pending", "intermittent"]
CheckResult = Literal["bad", "good", "low", "high", "unclear"]
FixResult = Literal["helped", "no-change", "worse"]
OutcomeState = Literal["open", "solved", "returned"]
PaidWhere = Literal["home", "workshop"]

UNLISTED = "unlisted"
"""The cause of a case whose cause its fault does not list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Vehicle:
    """The machine, without anything that names its owner."""

    model: str | None
    """Id of a model."""
    year: int | None
    """Model year."""
    odometer: Distance | None
    """When the fault was seen."""
    bike: str | None
    """A made-up id, the same for all cases of one bike."""
    modified: tuple[str, ...]
    """What is not as it left the factory, plain text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenCode:
    """A code that was read out."""

    read: CodeReading
    """The code as written, and the club formats that it fits."""
    status: CodeStatus | None
    """What the control unit said of it."""
    freeze_frame: tuple[tuple[str, str], ...]
    """Values that were stored with the code: name and value as written."""
    at: str
    """JSON pointer of the row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """A check or a fix that was tried. Exactly one of `check` and `fix` is set."""

    check: str | None
    """Id of a check of the case's fault."""
    fix: str | None
    """Id of a cause of the case's fault, whose fix was tried."""
    result: CheckResult | FixResult | None
    """What came out."""
    reading: str | None
    """The measured value with its unit, as written."""
    at: str
    """JSON pointer of the row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cleared:
    """The codes were cleared, and perhaps came back."""

    on: dt.date | None
    """Day of clearing."""
    back_after: Distance | None
    """Distance after which the code came back; None: it did not."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paid:
    """What was paid."""

    parts: float | None
    """Club currency."""
    labour: float | None
    """Club currency."""
    where: PaidWhere | None
    """Who did the work."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """How it ended."""

    state: OutcomeState | None
    """`returned`: it came back after the fix."""
    cause: str | None
    """Id of a cause of the case's fault, or `unlisted`."""
    also: tuple[str, ...]
    """Ids of causes found beside it."""
    after: Distance | None
    """Ridden since without the fault."""
    verified: bool
    """By the fix's verify reading."""
    paid: Paid | None
    """What was paid."""
    note: str | None
    """Markdown."""

    def is_solved(self, far_enough: Distance | None) -> bool:
        """Whether it is solved, and verified or ridden so far since; None: no distance counts."""
        far = far_enough is not None and self.after is not None and self.after.km >= far_enough.km
        return self.state == "solved" and (self.verified or far)


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseSource:
    """Who reported the case."""

    kind: SourceKind
    """What sort of source."""
    title: str
    """Plain text."""
    url: str | None
    """Link, http or https."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """`cases/<year>/<id>.yml`: one case report."""

    id: str
    """The file's stem."""
    path: str
    """Path of the file, relative to the knowledge base."""
    damaged: frozenset[str]
    """JSON pointers of what cannot be read there, or is missing against the schema: no rule asks about it."""
    vehicle: Vehicle
    """The machine."""
    seen: dt.date | None
    """Day on which the fault was seen."""
    conditions: tuple[str, ...]
    """Weather and state, plain text."""
    codes: tuple[SeenCode, ...]
    """Codes that were read out."""
    symptoms: tuple[str, ...]
    """What the rider noticed, plain text."""
    fault: str | None
    """Id of the fault; None while nobody knows."""
    tried: tuple[Tried, ...]
    """In the order in which it was tried."""
    cleared: Cleared | None
    """Set where the codes were cleared."""
    follows: str | None
    """Id of an earlier case of the same trouble on the same bike."""
    outcome: Outcome
    """How it ended."""
    source: CaseSource | None
    """Who reported it."""
