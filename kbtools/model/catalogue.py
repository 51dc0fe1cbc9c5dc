"""What faults and cases refer to: the club, its systems, components, access jobs, tools, cautions and models."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from kbtools.model.codes import CodeFormat
from kbtools.model.money import Distance, DistanceUnit, Range
from kbtools.model.picture import Picture
from kbtools.model.years import Years

Skill = Literal["home", "experienced", "workshop"]
BikeState = Literal["off", "key-on", "cranking", "running", "riding"]
Hazard = Literal["fuel", "battery", "ignition", "heat", "pressure", "moving", "lifting", "brakes", "exhaust"]
"""What a caution is about: what rules go by, never its id."""

SKILLS: tuple[Skill, ...] = ("home", "experienced", "workshop")
"""Rising."""

BIKE_STATES: tuple[BikeState, ...] = ("off", "key-on", "cranking", "running", "riding")
"""Rising: who may do one may do those before it."""


Zone = Literal[
    "handlebar",
    "steering-head",
    "front-end",
    "fork",
    "front-wheel",
    "radiator",
    "tank",
    "engine-top",
    "engine-side",
    "under-seat",
    "side-cover",
    "swing-arm",
    "rear-wheel",
    "tail",
    "exhaust",
]
"""Where on a motorcycle, roughly: one outline has them all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Breakdown:
    """The club's line for breakdowns."""

    phone: str
    """Digits, blanks and signs, as the schema lets them stand."""
    say: str | None
    """What they want to hear first, plain text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reports:
    """Where an owner's report may go."""

    email: str | None
    """The club's mailbox; None: no mail is offered."""
    issues: str | None
    """Address of the page on which a new issue is written; None: none is offered."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteBudget:
    """What the published site may weigh; kB and MB are thousands and millions of bytes."""

    page_kb: float | None
    """Of a page's HTML, unpacked; None: any."""
    total_mb: float | None
    """Of all files; None: any."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Club:
    """`club.yml`: who publishes, in which units, and what an hour counts for."""

    name: str
    """Name of the club, plain text."""
    site_url: str | None
    """Address of the published site, ending in a slash; None: unknown, so no absolute addresses are written."""
    repository: str | None
    """Address of the repository that takes pull requests; None: none is linked."""
    licence: str
    """SPDX identifier of the content's licence."""
    currency: str
    """ISO 4217 code; every amount of money is in it, tax included."""
    labour_rate: Range
    """Workshop labour, per hour."""
    diagnosis_hours: float
    """Hours that a workshop books to find an unknown fault."""
    confirm_hours: float
    """Hours that a workshop books to confirm a cause that the owner names."""
    transport: Range | None
    """Price of getting a bike that may not be ridden to the workshop; None: not known, counted as 0."""
    unlisted_repair: Range
    """Price of a workshop's repair of a cause that no entry lists."""
    own_time_value: float
    """What an hour of the owner's own time counts for."""
    home_time_factor: float
    """An owner needs so many times the labour hours."""
    prior_strength: float
    """How many cases a curator's judgement weighs; above 0."""
    unlisted_share: float
    """Prior share of a cause that is not listed; between 0 and 1, both excluded."""
    solved_after: Distance
    """Distance ridden without the fault before a case counts as solved."""
    review_after_months: int
    """A review older than this is overdue."""
    distance_unit: DistanceUnit
    """The unit in which the site shows distances."""
    code_formats: tuple[CodeFormat, ...]
    """The notations of fault codes that the club's machines use, in file order."""
    breakdown: Breakdown | None = None
    """Whom a member rings from the side of the road; None: the club has no such line."""
    reports: Reports | None = None
    """Where an owner's report may go; None: the club names no place."""
    phone_countries: tuple[str, ...] = ()
    """ISO 3166-1 alpha-2 codes of the countries whose national telephone numbers are looked for in texts."""
    site_budget: SiteBudget | None = None
    """What the site may weigh; None: any."""
    format: int | None = None
    """Of the files, 1 or 2; None where `club.yml` does not say, which means 1."""
    damaged: frozenset[str] = frozenset()
    """JSON pointers of what cannot be read there, or is missing against the schema: no rule asks about it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class System:
    """One node of the tree of systems."""

    id: str
    """Unique among systems."""
    name: str
    """Plain text."""
    parent: str | None
    """Id of the system above; None at the top."""
    safety_critical: bool
    """Said here or of a system above: a mistake in the work can hurt someone."""
    at: str
    """JSON pointer of its row."""
    cautions: tuple[str, ...] = ()
    """Ids of cautions for all work on it and on the systems below it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Component:
    """A part or assembly that can be the cause."""

    id: str
    """Unique among components."""
    name: str
    """Plain text."""
    system: str | None
    """Id of its system."""
    at: str
    """JSON pointer of its row."""
    where: str | None = None
    """Where on the bike, Markdown."""
    zone: Zone | None = None
    """Roughly where, for the outline of a motorcycle."""
    cautions: tuple[str, ...] = ()
    """Ids of cautions for all work on it."""
    pictures: tuple[Picture, ...] = ()
    """Where to look."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Access:
    """Work done once, after which several checks are cheap."""

    id: str
    """Unique among access jobs."""
    name: str
    """Plain text, the state reached: `Seat off`."""
    minutes: float
    """Minutes to get there and back."""
    skill: Skill
    """Least skill that it takes."""
    cautions: tuple[str, ...]
    """Ids of cautions for this work, and for all that is done while it is open."""
    needs: tuple[str, ...]
    """Ids of access jobs that come before it."""
    at: str
    """JSON pointer of its row."""
    allows: BikeState | None = None
    """The most that the bike may do while this is open; None: whatever the jobs that it needs allow."""
    where: str | None = None
    """Where on the bike, Markdown."""
    pictures: tuple[Picture, ...] = ()
    """Where to look."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """A tool that a check or a fix takes."""

    id: str
    """Unique among tools."""
    name: str
    """Plain text."""
    usual: bool
    """An owner is taken to have it."""
    on_bike: bool = False
    """It lies under the seat, so that it is there by the road too."""
    at: str
    """JSON pointer of its row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A text that is shown where the hands are."""

    id: str
    """Unique among cautions."""
    text: str
    """Markdown."""
    at: str
    """JSON pointer of its row."""
    hazard: Hazard | None = None
    """What it is about; None where nobody has said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StopNow:
    """A danger of which the finder speaks first, whatever it finds."""

    asked: tuple[str, ...]
    """Phrases by which a rider asks for it, plain text."""
    do: str
    """What to do now, plain text."""
    at: str
    """JSON pointer of its row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ControlUnit:
    """A control unit, as fitted to one model in some of its years."""

    id: str
    """Unique within its model."""
    name: str
    """Plain text."""
    system: str | None
    """Id of the system that it controls."""
    years: Years
    """Model years in which it is fitted."""
    at: str
    """JSON pointer of its row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Model:
    """`models/<id>.yml`: one model of the maker."""

    id: str
    """The file's stem."""
    name: str
    """Plain text."""
    also_called: tuple[str, ...]
    """Other names that owners type."""
    years: Years
    """Model years built; an open end: still built."""
    control_units: tuple[ControlUnit, ...]
    """In file order."""
    path: str
    """Path of the file, relative to the knowledge base."""
    damaged: frozenset[str] = frozenset()
    """JSON pointers of what cannot be read there, or is missing against the schema: no rule asks about it."""

    def unit(self, unit_id: str) -> ControlUnit | None:
        """The control unit of that id, None where the model has none."""
        return next((unit for unit in self.control_units if unit.id == unit_id), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Accepted:
    """A finding that the club accepts at one place."""

    rule: str
    """Rule id."""
    path: str
    """Path of the file, relative to the knowledge base."""
    pointer: str
    """JSON pointer of the place; empty for the whole file."""
    because: str
    """Why, for the next curator."""
    at: str
    """JSON pointer of its row in `accepted.yml`."""
