"""What the template of a fault's page is shown, and no other page's."""

from __future__ import annotations

from dataclasses import dataclass

from kbtools.model.fault import CodeRow, Source
from kbtools.pages.lines import Line, Link
from kbtools.pages.views import Anchor, MachineView


@dataclass(frozen=True, slots=True, kw_only=True)
class NoticeView:
    """A recall or bulletin that may pay for the repair."""

    kind: str
    """`Recall` or `Bulletin`."""
    source: Source
    """Number, issuer, region, title."""
    machines: tuple[MachineView, ...]
    """Which machines it covers."""
    covers: tuple[Anchor, ...]
    """Causes that it covers; empty: all."""
    whom: str
    """Which machines it covers, for the page's scripts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeLine:
    """A code of the fault."""

    codes: tuple[Link, ...]
    """The code; more than one where the text fits several formats; none where it fits none."""
    row: CodeRow
    """As the entry has it."""
    units: tuple[str, ...]
    """Names of the control unit that reports it: models may call theirs differently."""
    with_codes: tuple[Link | str, ...]
    """Codes that must be stored too: links where they have a page."""
    structure: tuple[str, ...]
    """What the code's structure tells, sentences."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceView:
    """Where the knowledge comes from."""

    kind: str
    """In words."""
    source: Source
    """Title, year, links."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelYears:
    """A model with the years that the fault concerns."""

    model: Link
    """The model."""
    years: tuple[Link, ...]
    """Its model years."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RelationView:
    """Another fault."""

    line: Line
    """The other fault as a line; of a withdrawn one its title and tombstone."""
    kind: str
    """How it stands to this one: `related`, `not-this`, `not-that` or `replaces`."""
    because: str | None
    """How to tell them apart, Markdown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StricterCode:
    """A code with stricter ride advice than its fault."""

    code: str
    """As the entry writes it, hostile."""
    answer: str
    """May I ride it, with this code."""
    why: str | None
    """Markdown."""
