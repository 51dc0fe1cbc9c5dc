"""What the plan of a fault reckons with: money, minutes, skill, tools and access of its checks and fixes, as data.

A `Problem` holds the middles of all ranges and nothing of the owner. The same data as JSON (`problem_record`) is what
`core/plan.js` reckons with in the browser, so that both solve the same problem.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from kbtools.evidence import Evidence, evidence_of, evidence_record
from kbtools.index.access import access_jobs
from kbtools.index.answers import Index
from kbtools.model.catalogue import BIKE_STATES, SKILLS, Access, BikeState, Club, Skill
from kbtools.model.check import Check
from kbtools.model.fault import Cause, Fault, Fix


@dataclass(frozen=True, slots=True, kw_only=True)
class AccessWork:
    """An access job."""

    id: str
    """Of the job."""
    minutes: float
    """Minutes to get there and back."""
    skill: Skill
    """Least skill that it takes."""
    needs: tuple[str, ...]
    """Ids of the jobs that come right before it."""
    allows: BikeState
    """The most that the bike may do while it is open, whatever these jobs allow."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FixWork:
    """The fix of a cause."""

    id: str
    """Of the cause."""
    parts: float
    """Middle of the parts' prices, added up; club currency."""
    hours: float
    """Middle of the workshop's labour hours, from closed bike to closed bike."""
    skill: Skill
    """Least skill that it takes."""
    tools: tuple[str, ...]
    """Ids of tools."""
    access: tuple[str, ...]
    """Ids of the access jobs that the hours contain; what those need is contained as well."""
    trial: bool
    """Cheap and safe enough to do without proof."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckWork:
    """A check."""

    id: str
    """Of the check."""
    outcomes: tuple[tuple[str, tuple[str, ...]], ...]
    """What can come out besides good, with the causes that it means: `bad`, or `low` and `high`."""
    good: tuple[float, float] | None
    """Limits of a good reading, both good; None where it is no reading."""
    finds: float
    """Chance that it shows a cause that it points to."""
    only_while_present: bool
    """Says nothing while the fault is not there."""
    before_riding: bool
    """To be done in any case before the bike is ridden again. No part of the cost."""
    bike: BikeState
    """What the bike does during it: access that forbids that is closed before."""
    minutes: float
    """Once access is open."""
    cost: float
    """Money for the check itself."""
    skill: Skill
    """Least skill that it takes."""
    tools: tuple[str, ...]
    """Ids of tools."""
    access: tuple[str, ...]
    """Ids of access jobs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """All that the plan of one fault depends on, but for the owner."""

    fault: str
    """Id of the fault."""
    currency: str
    """ISO 4217 code of all money here."""
    own_time_value: float
    """What an hour of the owner's time counts for, unless the owner says something else."""
    home_time_factor: float
    """An owner needs so many times the labour hours."""
    labour_rate: float
    """Middle of a workshop's price of an hour."""
    diagnosis_hours: float
    """Hours that a workshop books to find an unknown fault."""
    confirm_hours: float
    """Hours that it books to confirm a cause that the owner names."""
    transport: float
    """Middle of the price of getting the bike there; 0 where it may be ridden and starts."""
    unlisted_repair: float
    """Middle of the price of repairing a cause that is not listed."""
    evidence: Evidence
    """How often each cause is the one."""
    access: tuple[AccessWork, ...]
    """The access jobs that checks and fixes take, and those that these need."""
    tools: Mapping[str, bool]
    """The tools that they take, and whether an owner is taken to have each."""
    fixes: tuple[FixWork, ...]
    """One for each cause, in the order of the causes."""
    checks: tuple[CheckWork, ...]
    """In file order."""


class IncompleteError(ValueError):
    """A fault that lacks something without which no plan can be reckoned: a draft, or a damaged entry."""


def problem_of(fault: Fault, index: Index, evidence: Evidence | None = None) -> Problem:
    """What the plan of a fault reckons with.

    Args:
        fault: the entry.
        index: of its base.
        evidence: what speaks for its causes, where that is known already.

    Raises:
        IncompleteError: the entry lacks what a plan takes; the text says what.
    """
    lacking = list(gaps(fault, index.base.club))
    club = index.base.club
    if club is None or lacking:
        raise IncompleteError(", ".join(lacking))
    tools = dict.fromkeys(tool for each in fault.work for tool in each.tools)
    jobs = access_jobs((job for each in fault.work for job in each.access), index.base)
    fetched = fault.ride_level == "do-not-ride" or fault.does_not_start == "yes"
    return Problem(
        fault=fault.id,
        currency=club.currency,
        own_time_value=club.own_time_value,
        home_time_factor=club.home_time_factor,
        labour_rate=club.labour_rate.mid,
        diagnosis_hours=club.diagnosis_hours,
        confirm_hours=club.confirm_hours,
        transport=club.transport.mid if fetched and club.transport is not None else 0.0,
        unlisted_repair=club.unlisted_repair.mid,
        evidence=evidence_of(fault, index, club) if evidence is None else evidence,
        access=tuple(_work(job) for job in jobs),
        tools={tool: tool in index.base.tools and index.base.tools[tool].usual for tool in tools},
        fixes=tuple(_fix(cause, cause.fix) for cause in fault.causes if cause.fix is not None),
        checks=tuple(_check(check) for check in fault.checks),
    )


def gaps(fault: Fault, club: Club | None) -> Iterator[str]:
    """What an entry lacks that a plan takes, in words."""
    if club is None:
        yield "a club.yml that can be read"
    for cause in fault.causes:
        if cause.fix is None:
            yield f"the fix of {cause.id}"
        elif cause.fix.skill is None:
            yield f"the skill for the fix of {cause.id}"
        elif cause.fix.labour_hours is None:
            yield f"the labour hours for the fix of {cause.id}"
    for check in fault.checks:
        if check.minutes is None:
            yield f"the minutes of {check.id}"
        if check.skill is None:
            yield f"the skill for {check.id}"


def _fix(cause: Cause, fix: Fix) -> FixWork:
    return FixWork(
        id=cause.id,
        parts=sum(part.price.mid for part in fix.parts if part.price is not None),
        hours=0.0 if fix.labour_hours is None else fix.labour_hours.mid,
        skill=fix.skill or "workshop",
        tools=fix.tools,
        access=fix.access,
        trial=fix.trial,
    )


def _check(check: Check) -> CheckWork:
    reading = check.reading
    outcomes: tuple[tuple[str, tuple[str, ...]], ...] = (("bad", check.points_to),)
    if reading is not None:
        outcomes = (("low", reading.low_points_to), ("high", reading.high_points_to))
    good = reading.good if reading is not None else None
    return CheckWork(
        id=check.id,
        outcomes=outcomes,
        good=None if good is None else (good.low, good.high),
        finds=check.finds,
        only_while_present=check.only_while_present,
        before_riding=check.before_riding,
        bike=check.bike,
        minutes=check.minutes or 0.0,
        cost=check.cost,
        skill=check.skill or "workshop",
        tools=check.tools,
        access=check.access,
    )


def _work(job: Access) -> AccessWork:
    return AccessWork(
        id=job.id, minutes=job.minutes, skill=job.skill, needs=job.needs, allows=job.allows or BIKE_STATES[-1]
    )


_CHECK_FIELDS = ("id", "good", "finds", "only_while_present", "before_riding", "minutes", "cost", "tools", "access")


def problem_record(problem: Problem) -> dict[str, object]:
    """The problem as JSON has it: the fields of `Problem` by name, rows as mappings.

    A check is `{"id", "outcomes": {"bad": [causes]} or {"low": […], "high": […]}, "good": [low, high] or null, "finds",
    "only_while_present", "before_riding", "minutes", "cost", "skill", "tools", "access", "bike"}`; skills are 0 home,
    1 experienced, 2 workshop; `bike`, and `allows` of an access job, 0 off, 1 key-on, 2 cranking, 3 running, 4 riding.
    """
    amounts = ("own_time_value", "home_time_factor", "labour_rate", "diagnosis_hours", "confirm_hours")
    return {
        "fault": problem.fault,
        "currency": problem.currency,
        **{name: getattr(problem, name) for name in (*amounts, "transport", "unlisted_repair")},
        "evidence": evidence_record(problem.evidence),
        "access": [
            {**_row(job, ("id", "minutes", "needs")), "allows": BIKE_STATES.index(job.allows)} for job in problem.access
        ],
        "tools": dict(problem.tools),
        "fixes": [_row(fix, ("id", "parts", "hours", "tools", "access", "trial")) for fix in problem.fixes],
        "checks": [
            {
                **_row(check, _CHECK_FIELDS),
                "bike": BIKE_STATES.index(check.bike),
                "outcomes": {name: list(causes) for name, causes in check.outcomes},
            }
            for check in problem.checks
        ],
    }


def _row(work: AccessWork | FixWork | CheckWork, names: Sequence[str]) -> dict[str, object]:
    values = ((name, getattr(work, name)) for name in names)
    plain = {name: list(value) if isinstance(value, tuple) else value for name, value in values}
    return {**plain, "skill": SKILLS.index(work.skill)}
