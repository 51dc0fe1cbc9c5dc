"""The whole knowledge base as one value."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from kbtools.model.case import Case
from kbtools.model.catalogue import Accepted, Access, Caution, Club, Component, Model, StopNow, System, Tool
from kbtools.model.fault import Fault
from kbtools.model.shared import SharedCheck
from kbtools.model.vocabulary import NO_TABLES, Tables, Words
from kbtools.model.writing import Writings

IdKind = Literal["system", "component", "access job", "tool", "caution", "shared check", "model", "fault", "case"]
"""The kinds of things that have an id of their own across the knowledge base."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HandPage:
    """A hand-written page."""

    path: str
    """Path of the file, relative to the knowledge base: `pages/safety.md`."""
    text: str
    """The whole file, hostile."""
    body: str
    """Its Markdown, without the front matter."""
    title: str | None = None
    """What the page is called; None: as its first heading."""
    description: str | None = None
    """One sentence about it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureFile:
    """A picture that was looked at."""

    path: str
    """Path of the file, relative to the knowledge base: `pages/wiring.jpg`."""
    digest: bytes
    """SHA-256 of its content."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeated:
    """An id that was there already; the first one counts."""

    kind: IdKind
    """What it is an id of."""
    id: str
    """The id."""
    path: str
    """File of the second one, relative to the knowledge base."""
    at: str
    """JSON pointer of its row; empty where the file's name is the id."""
    first: str
    """File of the first one."""


@dataclass(frozen=True, slots=True, kw_only=True, weakref_slot=True)
class KnowledgeBase:
    """Everything that was read, each mapping by id in the order of the files.

    It can be referred to weakly, so that what is derived from it can be kept as long as it lives and no longer.
    """

    club: Club | None
    """None where `club.yml` cannot be read or lacks something that it must say."""
    systems: Mapping[str, System]
    """The tree, parents before children."""
    components: Mapping[str, Component]
    """By id."""
    access: Mapping[str, Access]
    """By id."""
    tools: Mapping[str, Tool]
    """By id."""
    cautions: Mapping[str, Caution]
    """By id."""
    models: Mapping[str, Model]
    """By id."""
    faults: Mapping[str, Fault]
    """By id; drafts and withdrawn ones among them."""
    cases: Mapping[str, Case]
    """By id."""
    words: Words
    """What the club says about words; ask `kbtools.index.words.vocabulary`, which knows the programs' own as well."""
    accepted: tuple[Accepted, ...]
    """Findings that the club accepts."""
    pages: tuple[HandPage, ...]
    """Hand-written pages."""
    unsure: frozenset[IdKind]
    """Kinds of which not every id could be read: a missing one may stand in the damaged part, so it is not reported."""
    checks: Mapping[str, SharedCheck] = field(default_factory=dict)
    """The checks that faults share, by id."""
    stop_now: tuple[StopNow, ...] = ()
    """Dangers of which the finder speaks first, in file order."""
    writings: Writings = field(default_factory=lambda: Writings({}))
    """Every text that an author wrote, in every file that can be read, drafts and repeated ones among them."""
    pictures: tuple[PictureFile, ...] = ()
    """Pictures of entries and of hand-written pages."""
    lost_pictures: frozenset[str] = frozenset()
    """Paths of pictures that are there and cannot be published."""
    whole: bool = True
    """Whether all of every file could be read."""
    repeated: tuple[Repeated, ...] = ()
    """Ids that stand twice."""
    double_faults: tuple[Fault, ...] = ()
    """Files whose id another one has already; nothing is published of them, and they are examined."""
    double_cases: tuple[Case, ...] = ()
    """Likewise."""
    touched: frozenset[str] = frozenset()
    """Files that are new or edited since the last commit, or since where a branch began; empty: nobody knows."""
    digest: str = ""
    """Changes with the name or the content of any file that was read."""
    digests: Mapping[str, bytes] = field(default_factory=dict)
    """Path of each file that was read → SHA-256 of its content, for whoever keeps what follows from some of them."""
    tables: Tables = NO_TABLES
    """The vocabulary that comes with the programs, for whoever compares texts."""
