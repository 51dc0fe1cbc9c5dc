"""What a fault page shows of its causes, fixes and checks: ids turned into names, money added up."""

from __future__ import annotations

from dataclasses import dataclass

from kbtools.model.catalogue import Zone
from kbtools.model.check import Reading
from kbtools.model.fault import Verify
from kbtools.model.picture import Picture
from kbtools.pages.good_values import ExceptionView
from kbtools.pages.lines import Link
from kbtools.pages.share_views import ShareView


@dataclass(frozen=True, slots=True, kw_only=True)
class Anchor:
    """A place on the same page."""

    id: str
    """Id of the element."""
    title: str
    """Plain text, hostile until escaped."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AccessView:
    """Work that must be done first."""

    name: str
    """Plain text."""
    minutes: str
    """A number."""
    skill: str | None
    """In words, where it takes more than anyone has."""
    where: str | None
    """Where on the bike, Markdown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MachineView:
    """A row about models and years."""

    model: Link
    """The model."""
    years: str
    """In words."""
    unit: str | None
    """Name of the control unit that must be fitted."""
    only_if: str | None
    """Markdown."""
    note: str | None
    """Markdown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FixView:
    """What mends a cause, and what it costs."""

    summary: str | None
    """Markdown."""
    skill: str | None
    """In words."""
    trial: bool
    """May be done without proof."""
    parts: tuple[tuple[str, str | None], ...]
    """Name, and price where it is known."""
    home: str | None
    """Price at home: the parts; None where only a workshop can do it, or parts have no known price."""
    home_hours: str | None
    """Hours of an owner's own time; None where only a workshop can do it."""
    hours: str | None
    """Labour hours of a workshop."""
    workshop: str | None
    """Price in a workshop: parts and labour; None where parts have no known price."""
    tools: tuple[str, ...]
    """Names of tools."""
    access: tuple[AccessView, ...]
    """What the hours contain, in the order in which it is done."""
    cautions: tuple[str, ...]
    """Markdown, each once."""
    verify: Verify | None
    """How to see that it worked."""
    held: str | None
    """How often it held; None where nobody has reported."""
    paid: tuple[str, ...]
    """What members paid for it, where enough say so."""
    often_with: tuple[Anchor, ...]
    """Causes found beside its own."""
    free: str | None
    """What it costs where a recall or bulletin covers the cause, a sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CauseView:
    """One thing that can be behind the fault."""

    anchor: Anchor
    """Where it stands, and what it is."""
    id: str
    """Of the cause."""
    share: ShareView
    """How often it is the one."""
    component: Link | None
    """The part."""
    where: str | None
    """Where that is on the bike, Markdown."""
    machines: tuple[MachineView, ...]
    """Where it exists, if not everywhere."""
    only_if: str | None
    """Markdown."""
    checks: tuple[Anchor, ...]
    """Checks that can show it."""
    fix: FixView | None
    """What mends it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SpotView:
    """Where on the bike something is done."""

    parts: tuple[tuple[str, str], ...]
    """Names of components, and where each is, Markdown; none where there are too many to be read at a step."""
    zones: tuple[Zone, ...]
    """To be filled in the drawing."""
    words: str
    """The same, for who cannot see the drawing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckView:
    """Something to look at or to measure."""

    id: str
    """Of the check."""
    anchor: Anchor
    """Where it stands, and what is done, in few words."""
    do: str | None
    """Markdown."""
    more: str | None
    """What of `do` stands behind the title's words; None where the title does not begin it word for word."""
    expect: str | None
    """Markdown."""
    reading: Reading | None
    """What to measure where."""
    good: str | None
    """The good range with its unit."""
    exceptions: tuple[ExceptionView, ...]
    """Machines of the fault on which another range is good."""
    points_to: tuple[Anchor, ...]
    """Causes that a bad result speaks for."""
    low_points_to: tuple[Anchor, ...]
    """Causes that a reading below the good range speaks for."""
    high_points_to: tuple[Anchor, ...]
    """Causes that a reading above the good range speaks for."""
    finds: str | None
    """Of ten bikes with such a cause it shows so many; None where the author gives no figure, or says all."""
    rules_out: bool
    """The author says that it finds all: a good result rules the causes out."""
    before_riding: bool
    """To be done in any case before the bike is ridden again."""
    workshop_only: bool
    """Nobody but a workshop can do it."""
    only_while_present: bool
    """Says nothing while the fault is not there."""
    bike: str
    """State of the bike, in words."""
    minutes: str | None
    """A number."""
    cost: str | None
    """Price of the check itself, where it has one."""
    skill: str | None
    """In words."""
    tools: tuple[str, ...]
    """Names of tools."""
    access: tuple[AccessView, ...]
    """What must be open, in the order in which it is done."""
    cautions: tuple[str, ...]
    """Markdown, each once: the check's own, and those of the access that it takes."""
    spot: SpotView | None
    """Where it is done; None where no entry says."""
    pictures: tuple[Picture, ...]
    """Where to look: of the access that it takes, then its own, each file once."""
