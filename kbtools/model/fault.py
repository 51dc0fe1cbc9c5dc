"""One known fault: whom it concerns, what it shows, what causes it, how to find out and how to mend it.

Every row carries `at`, the JSON pointer of where it stands in its file, so that a rule can name a place. A field that
the schema requires is still optional here: a draft may lack it, and a damaged entry keeps what can be read of it.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Literal

from kbtools.model.catalogue import Skill
from kbtools.model.check import Check
from kbtools.model.codes import CodeReading
from kbtools.model.money import Range
from kbtools.model.ride_advice import RideAdvice, RideLevel
from kbtools.model.years import Years

Starting = Literal["yes", "sometimes"]
"""How often it does not start."""
SourceKind = Literal["first-hand", "forum", "article", "manual", "bulletin", "recall", "regulation", "standard"]

NOTICES: tuple[SourceKind, ...] = ("recall", "bulletin")
"""Kinds of sources that say who is covered: the maker may pay. Recalls first, they always cost the owner nothing."""

MOST_ROWS = 12
"""Causes, and checks, that an entry may have."""

MOST_JOBS = 4
"""Different access jobs that an entry may take, of checks and fixes together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AppliesTo:
    """A model and its years."""

    model: str
    """Id of a model."""
    years: Years
    """As written; years outside the model's own are an error."""
    unit: str | None
    """Id of a control unit of that model that must be fitted."""
    only_if: str | None
    """A question for the owner, Markdown; shown, never computed with."""
    note: str | None
    """Markdown."""
    at: str
    """JSON pointer of the row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeRow:
    """A code under which the fault shows."""

    read: CodeReading
    """The code as written, and the club formats that it fits."""
    meaning: str | None
    """What the maker's lists call it, plain text."""
    unit: str | None
    """Id of the control unit that reports it."""
    sets_when: str | None
    """The condition under which it sets, Markdown."""
    with_codes: tuple[CodeReading, ...]
    """Codes that must be stored too."""
    follow_on: bool
    """A consequence: look for the root code first."""
    ride_advice: RideAdvice | None
    """Where the code calls for stricter advice than the fault; level and reason alone."""
    at: str
    """JSON pointer of the row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part that a fix uses."""

    name: str
    """Plain text."""
    price: Range | None
    """Club currency, tax included."""
    at: str
    """JSON pointer of the row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Verify:
    """How to see that a fix has worked."""

    do: str | None
    """Markdown."""
    expect: str | None
    """Markdown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fix:
    """What mends a cause."""

    summary: str | None
    """Markdown."""
    skill: Skill | None
    """Least skill that it takes."""
    parts: tuple[Part, ...]
    """What is bought."""
    labour_hours: Range | None
    """Workshop hours from closed bike to closed bike."""
    tools: tuple[str, ...]
    """Ids of tools."""
    access: tuple[str, ...]
    """Ids of access jobs that the hours contain."""
    cautions: tuple[str, ...]
    """Ids of cautions."""
    trial: bool
    """Cheap and safe enough to do without proof."""
    verify: Verify | None
    """How to see that it worked."""
    at: str
    """JSON pointer of the mapping."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """One thing that can be behind the fault."""

    id: str
    """Unique within its fault."""
    summary: str | None
    """Plain text."""
    component: str | None
    """Id of a component."""
    share: float | None
    """Weight among the causes before any case is counted; None where the fault gives none."""
    applies_to: tuple[AppliesTo, ...]
    """Where the cause exists, if not on all that the fault applies to."""
    only_if: str | None
    """A question for the owner, Markdown."""
    often_with: tuple[str, ...]
    """Ids of causes of the same fault that are found beside this one."""
    ride_advice: RideAdvice | None
    """Stricter than the fault's, once this cause is likely; level and reason alone."""
    same_as: str | None
    """`fault/cause`: the same part failing in the same way, in another entry."""
    fix: Fix | None
    """What mends it."""
    at: str
    """JSON pointer of the row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Where the knowledge comes from; a recall or bulletin also says whom it covers."""

    kind: SourceKind
    """What sort of source."""
    title: str
    """Plain text."""
    year: int | None
    """Year it appeared."""
    url: str | None
    """Link, http or https."""
    archived: str | None
    """Link to an archived copy."""
    seen_on: dt.date | None
    """Day on which the link was last read."""
    number: str | None
    """Campaign or bulletin number."""
    issuer: str | None
    """Who issued it."""
    region: str | None
    """Where it holds."""
    applies_to: tuple[AppliesTo, ...]
    """Which machines a recall or bulletin covers; empty: all that the fault applies to."""
    covers: tuple[str, ...]
    """Ids of the causes that it covers; empty: all."""
    at: str
    """JSON pointer of the row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DistinctFrom:
    """A fault that reads alike and is another one."""

    fault: str
    """Id of the other fault."""
    because: str | None
    """How to tell them apart, Markdown."""
    at: str
    """JSON pointer of the row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reviewed:
    """The last review."""

    on: dt.date
    """Day of the review."""
    by: str
    """Role of the reviewer, never a name."""
    second: str | None
    """Role of a second reviewer."""
    at: str
    """JSON pointer of the mapping."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Withdrawn:
    """An entry that is no longer advice; its address stays."""

    on: dt.date | None
    """Day of withdrawal."""
    reason: str | None
    """Markdown."""
    replaced_by: str | None
    """Id of the fault to read instead."""
    at: str
    """JSON pointer of the mapping."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """`faults/<system>/<id>.yml`: one known fault."""

    id: str
    """The file's stem."""
    path: str
    """Path of the file, relative to the knowledge base."""
    damaged: frozenset[str]
    """JSON pointers of what cannot be read there, or is missing against the schema: no rule asks about it."""
    title: str
    """Plain text; the id where it is missing."""
    system: str | None
    """Id of a system."""
    applies_to: tuple[AppliesTo, ...]
    """It concerns a vehicle that any row names."""
    codes: tuple[CodeRow, ...]
    """Codes under which it shows."""
    symptoms: tuple[str, ...]
    """What the rider notices, plain text."""
    does_not_start: Starting | None
    """`yes`: it does not run at all, so it is fetched."""
    ride_advice: RideAdvice | None
    """May I ride it."""
    cautions: tuple[str, ...]
    """Ids of cautions that hold for all work on it."""
    causes: tuple[Cause, ...]
    """In file order."""
    checks: tuple[Check, ...]
    """In file order."""
    sources: tuple[Source, ...]
    """In file order."""
    related: tuple[str, ...]
    """Ids of faults that one may want to read next."""
    distinct_from: tuple[DistinctFrom, ...]
    """Faults that are not this one."""
    reviewed: Reviewed | None
    """The last review."""
    formerly: tuple[str, ...]
    """Old ids; each redirects here."""
    withdrawn: Withdrawn | None
    """Set where the entry is no longer advice."""
    draft: bool
    """Not published."""

    @property
    def ride_level(self) -> RideLevel | None:
        """Whether it may be ridden; None where the entry does not say."""
        return self.ride_advice.level if self.ride_advice is not None else None

    @property
    def published(self) -> bool:
        """Whether it is advice on the site: neither a draft nor withdrawn."""
        return not self.draft and self.withdrawn is None

    def intact(self, pointer: str) -> bool:
        """Whether the value at `pointer`, everything in it and everything around it could be read."""
        return not any(
            each == pointer or each.startswith(f"{pointer}/") or pointer.startswith(f"{each}/") for each in self.damaged
        )

    def ids_known(self, rows: Literal["causes", "checks"]) -> bool:
        """Whether the id of every cause (or check) could be read; if not, an unknown one may be among the lost."""
        return not any(_holds_id(each, f"/{rows}") for each in self.damaged)

    @property
    def work(self) -> tuple[Fix | Check, ...]:
        """All that is done to the machine: the fixes of its causes, then its checks."""
        return (*(cause.fix for cause in self.causes if cause.fix is not None), *self.checks)

    def cause(self, cause_id: str) -> Cause | None:
        """The cause of that id, None where there is none."""
        return next((cause for cause in self.causes if cause.id == cause_id), None)


def _holds_id(pointer: str, rows: str) -> bool:
    """Whether the loss of what stands at `pointer` loses an id of the list at `rows`."""
    if pointer in {"", rows}:
        return True
    steps = pointer.removeprefix(f"{rows}/").split("/")
    return pointer.startswith(f"{rows}/") and (len(steps) == 1 or (len(steps) == 2 and steps[1] == "id"))
