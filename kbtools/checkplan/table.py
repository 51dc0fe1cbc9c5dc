"""A problem and an owner as numbers: causes, checks and access jobs become bits, so that a state is three integers."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from kbtools.checkplan.owner import Owner
from kbtools.checkplan.problem import CheckWork, FixWork, Problem
from kbtools.evidence import means
from kbtools.index.access import last_named_first
from kbtools.model.catalogue import BIKE_STATES, SKILLS, BikeState, Skill


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckRow:
    """A check as the search sees it."""

    id: str
    """Of the check."""
    names: tuple[str, ...]
    """What can come out besides good: `bad`, or `low` and `high`."""
    sets: tuple[int, ...]
    """The causes that each of these means, as bits."""
    union: int
    """All causes that it points to, as bits."""
    finds: float
    """Chance that it shows a cause that it points to."""
    minutes: float
    """Once access is open."""
    money: float
    """Money for the check itself."""
    access: int
    """Access jobs that it takes, as bits, with all that they need."""
    keeps: int
    """Access jobs that may stay open during it, as bits: they and all that they need allow what the bike does."""
    possible: bool
    """The owner can do it, and it was not done."""
    before_riding: bool = False
    """A bad result after the cause was found is a second fault."""

    def opened_after(self, opened: int) -> int:
        """What is open once it was done, of what was open before, as bits."""
        return opened & self.keeps | self.access


@dataclass(frozen=True, slots=True, kw_only=True)
class FixRow:
    """The fix of a listed cause as the search sees it."""

    possible: bool
    """The owner can do it at home."""
    parts: float
    """Money for parts."""
    minutes: float
    """The owner's minutes from closed bike to closed bike."""
    access: int
    """Access jobs that these minutes contain, as bits, with all that they need."""
    workshop: float
    """What a workshop takes for the repair."""
    known: float
    """The same with confirming the cause and transport."""
    trial: bool
    """Cheap and safe enough to do without proof, and possible."""
    covered: bool = False
    """The maker pays: the owner only brings the bike."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """All numbers of one plan. Bit i of a set of causes is `causes[i]`, the last one `unlisted`."""

    causes: tuple[str, ...]
    """Ids of the causes that exist on the machine, in file order, then `unlisted`."""
    weights: tuple[float, ...]
    """Their posterior mean shares."""
    fixes: tuple[FixRow, ...]
    """One for each listed cause."""
    unlisted_repair: float
    """What a workshop takes for a cause that is not listed."""
    hand_over: float
    """Diagnosis and transport: what handing over costs besides the repair."""
    rate: float
    """What a minute of the owner's counts for."""
    checks: tuple[CheckRow, ...]
    """In file order."""
    access: tuple[str, ...]
    """Ids of the access jobs, by bit."""
    access_minutes: tuple[float, ...]
    """Minutes of each."""
    opened: int
    """Access jobs that are open at the start, as bits."""

    @property
    def everything(self) -> int:
        """All causes, as bits."""
        return (1 << len(self.causes)) - 1

    def opening_minutes(self, jobs: int) -> float:
        """Minutes that these access jobs take together."""
        return sum(minutes for bit, minutes in enumerate(self.access_minutes) if jobs >> bit & 1)


_RANK = {skill: rank for rank, skill in enumerate(SKILLS)}


class Abilities:
    """What the owner can do."""

    __slots__ = ("_jobs", "_needs", "_skill", "_tools", "bits", "keeps")

    def __init__(self, problem: Problem, owner: Owner) -> None:
        self._skill = _RANK[owner.skill]
        usual = {tool for tool, is_usual in problem.tools.items() if is_usual}
        self._tools = (usual | owner.has) - owner.lacks
        self._jobs = {job.id: job for job in problem.access}
        self._needs = {job.id: job.needs for job in problem.access}
        self.bits = {job: 1 << bit for bit, job in enumerate(self._jobs)}
        self.keeps = {state: self._allowing(state) for state in BIKE_STATES}
        """State of the bike → the access jobs that may stay open in it, as bits."""

    def allow(self, work: CheckWork | FixWork) -> bool:
        """Whether skill, tools and access are within the owner's."""
        return (
            self._can(work.skill)
            and self._tools.issuperset(work.tools)
            and (not work.access or all(map(self._reaches, self._closed(work))))
        )

    def lacking(self, work: CheckWork | FixWork) -> tuple[bool, tuple[str, ...], tuple[str, ...]]:
        """What keeps the owner from a work: skill; tools that are missing; access jobs that take more skill."""
        return (
            not self._can(work.skill),
            tuple([tool for tool in work.tools if tool not in self._tools]),
            tuple([job for job in self._closed(work) if not self._reaches(job)]),
        )

    def _allowing(self, state: BikeState) -> int:
        forbidding = {job.id for job in self._jobs.values() if BIKE_STATES.index(job.allows) < BIKE_STATES.index(state)}
        kept = [job for job in self._jobs if not forbidding.intersection(last_named_first((job,), self._needs))]
        return sum([self.bits[job] for job in kept])

    def _reaches(self, job: str) -> bool:
        return job in self._jobs and self._can(self._jobs[job].skill)

    def _can(self, skill: Skill) -> bool:
        return _RANK[skill] <= self._skill

    def _closed(self, work: CheckWork | FixWork) -> tuple[str, ...]:
        """The access jobs that a work takes, and all that they need."""
        return last_named_first(work.access, self._needs)

    def mask(self, jobs: Collection[str]) -> int:
        """These access jobs and all that they need, as bits; a job that does not exist has none."""
        return sum([self.bits.get(job, 0) for job in last_named_first(jobs, self._needs)]) if jobs else 0


def table_of(problem: Problem, owner: Owner) -> Table:
    """The numbers of the plan of one problem for one owner."""
    weights = means(problem.evidence, owner.bike)
    able = Abilities(problem, owner)
    hour = problem.own_time_value if owner.own_time_value is None else owner.own_time_value
    bit_of = {cause: 1 << bit for bit, cause in enumerate(weights)}
    return Table(
        causes=tuple(weights),
        weights=tuple(weights.values()),
        fixes=tuple(
            _covered(problem) if fix.id in owner.covered else _fix(fix, problem, able)
            for fix in problem.fixes
            if fix.id in bit_of
        ),
        unlisted_repair=problem.unlisted_repair,
        hand_over=problem.diagnosis_hours * problem.labour_rate + problem.transport,
        rate=hour / 60,
        checks=tuple(_check(check, bit_of, able, owner) for check in problem.checks),
        access=tuple(able.bits),
        access_minutes=tuple(job.minutes for job in problem.access),
        opened=able.mask(owner.opened),
    )


def _fix(fix: FixWork, problem: Problem, able: Abilities) -> FixRow:
    possible = able.allow(fix)
    workshop = fix.parts + fix.hours * problem.labour_rate
    return FixRow(
        possible=possible,
        parts=fix.parts,
        minutes=fix.hours * problem.home_time_factor * 60,
        access=able.mask(fix.access),
        workshop=workshop,
        known=workshop + problem.confirm_hours * problem.labour_rate + problem.transport,
        trial=fix.trial and possible,
    )


def _covered(problem: Problem) -> FixRow:
    """The maker mends it, and nobody tries it at home."""
    return FixRow(
        possible=False,
        parts=0.0,
        minutes=0.0,
        access=0,
        workshop=0.0,
        known=problem.transport,
        trial=False,
        covered=True,
    )


def _check(check: CheckWork, bit_of: Mapping[str, int], able: Abilities, owner: Owner) -> CheckRow:
    sets = tuple(_bits(causes, bit_of) for _, causes in check.outcomes)
    union = 0
    for each in sets:
        union |= each
    done = check.id in owner.results
    silent = check.only_while_present and owner.absent
    return CheckRow(
        id=check.id,
        names=tuple(name for name, _ in check.outcomes),
        sets=sets,
        union=union,
        finds=check.finds,
        minutes=check.minutes,
        money=check.cost,
        access=able.mask(check.access),
        keeps=able.keeps[check.bike],
        before_riding=check.before_riding,
        possible=not done and not silent and able.allow(check),
    )


def _bits(causes: Sequence[str], bit_of: Mapping[str, int]) -> int:
    """Causes that do not exist on the machine have no bit."""
    found = 0
    for cause in causes:
        found |= bit_of.get(cause, 0)
    return found


State = tuple[int, int, int]
"""Causes still possible; imperfect checks that came out good; access jobs open: each as bits."""


def start_of(table: Table, results: Mapping[str, str]) -> State:
    """The state in which the owner is after these results, as the plan itself would have gone on after each of them.

    A result closes causes out, and what the check forbids, and leaves its access open; `unclear` changes nothing. A
    check before riding that is bad after the one cause was found is a second fault beside it: the cause stays.
    """
    possible, good, opened = table.everything, 0, table.opened
    places = {check.id: bit for bit, check in enumerate(table.checks)}
    for name, result in results.items():
        bit = places.get(name)
        if bit is None or result == "unclear":
            continue
        check = table.checks[bit]
        opened = check.opened_after(opened)
        if result != "good":
            means = check.sets[check.names.index(result)]
            if not is_second(check, possible, means):
                possible &= means
        elif check.finds < 1:
            good |= 1 << bit
        else:
            possible &= ~check.union
    return possible, good, opened


def is_second(check: CheckRow, possible: int, means: int) -> bool:
    """Whether a result that means these causes tells of a second fault beside the one that was found."""
    return check.before_riding and possible != 0 and possible & (possible - 1) == 0 and not possible & means
