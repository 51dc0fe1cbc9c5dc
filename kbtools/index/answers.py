"""What belongs to what: the index of a knowledge base, which answers without scanning.

`kbtools.index.build` builds it for a day. It tells what the site has: drafts never appear in it, a withdrawn entry as a
tombstone only. Who looks at unfinished bases, such as a rule, asks the modules beside it, which say where they differ.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from kbtools.index.codes import CodeUse
from kbtools.index.scopes import Questions, Scope
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.catalogue import Club, Component, ControlUnit, System
from kbtools.model.codes import FaultCode
from kbtools.model.fault import Cause, Fault, Source

ModelYear = tuple[str, int]
"""Id of a model, and one of its model years."""

RelationKind = Literal["related", "named-by", "not-this", "not-that", "replaces"]
"""How another fault stands to one: it is named as related, it names this one, this one says how it differs from it,
it says how this one differs from it, or it was folded into this one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A fault as it stands in the list of a model year."""

    fault: Fault
    """The entry."""
    questions: Questions
    """What the owner must ask first; empty: it applies without a question."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice:
    """A recall or bulletin as it concerns a model year."""

    fault: Fault
    """The entry that names it."""
    source: Source
    """The recall or bulletin."""
    questions: Questions
    """What the owner must ask first; empty: it applies without a question."""

    @property
    def campaign(self) -> tuple[str, str, str]:
        """What tells one recall or bulletin from another, whichever entries name it; without a number its title."""
        return (self.source.kind, self.source.issuer or "", self.source.number or self.source.title)


@dataclass(frozen=True, slots=True, kw_only=True)
class CauseUse:
    """A component as the cause in an entry."""

    fault: Fault
    """The entry."""
    cause: Cause
    """Its cause that names the component."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Relation:
    """Another fault that a reader of one may want."""

    fault: Fault
    """The other fault."""
    kind: RelationKind
    """How it stands to this one."""
    because: str | None
    """How to tell them apart, Markdown, as the entry says it that names the other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Index:
    """Answers to what the pages ask. Every mapping lacks the keys that have nothing; the order is that of the files."""

    base: KnowledgeBase
    """What was indexed."""
    published: Mapping[str, Fault]
    """The faults that are advice, by id."""
    tombstones: Mapping[str, Fault]
    """Withdrawn entries, by id."""
    renamed: Mapping[str, str]
    """Old id of an entry → id of the entry, which is published or withdrawn."""
    years: Mapping[str, tuple[int, ...]]
    """Model id → its model years; every model has its key."""
    stands_for: Mapping[str, str]
    """Withdrawn entry → the published one that took its place, however many steps away."""
    scopes: Mapping[str, Scope]
    """Fault id → every model year that it concerns."""
    faults_by_model_year: Mapping[ModelYear, tuple[Listed, ...]]
    """The faults that concern a model year."""
    faults_by_model: Mapping[str, tuple[Fault, ...]]
    """The faults that concern any year of a model."""
    faults_by_system: Mapping[str, tuple[Fault, ...]]
    """The faults of a system and of those below it."""
    faults_of_system: Mapping[str, tuple[Fault, ...]]
    """The faults of a system itself."""
    causes_by_component: Mapping[str, tuple[CauseUse, ...]]
    """The causes that name a component."""
    uses_by_code: Mapping[FaultCode, tuple[CodeUse, ...]]
    """The rows about exactly this code."""
    codes_by_slug: Mapping[str, tuple[FaultCode, ...]]
    """The codes at an address; more than one where formats of the club share a text."""
    code_families: Mapping[FaultCode, Sequence[FaultCode]]
    """A code without failure type → it and the same with one, those that entries give, in order."""
    notices_by_model_year: Mapping[ModelYear, tuple[Notice, ...]]
    """The recalls and bulletins that cover a model year, recalls first."""
    units_by_model_year: Mapping[ModelYear, tuple[ControlUnit, ...]]
    """The control units fitted in a model year."""
    cases_by_fault: Mapping[str, tuple[Case, ...]]
    """The cases of a published fault, the last seen first."""
    cases_by_model_year: Mapping[ModelYear, tuple[Case, ...]]
    """The cases of a model year, the last seen first; those that nobody has explained among them."""
    relations: Mapping[str, tuple[Relation, ...]]
    """Fault id → the other faults, each once for each way in which it stands to this one."""
    children: Mapping[str | None, tuple[System, ...]]
    """System id, or None for the top → the systems right below it."""
    paths: Mapping[str, tuple[System, ...]]
    """System id → the systems from the top down to it, itself included."""
    components_by_system: Mapping[str, tuple[Component, ...]]
    """The components of a system itself."""

    @property
    def club(self) -> Club:
        """The club.

        Raises:
            ValueError: the base has none; such a base has errors and is never published.
        """
        if self.base.club is None:
            raise ValueError("a knowledge base without a club cannot be published")
        return self.base.club

    def entry(self, fault_id: str) -> Fault | None:
        """The published or withdrawn entry of that id, which may be an old one; None where there is none."""
        fault_id = self.renamed.get(fault_id, fault_id)
        return self.published.get(fault_id) or self.tombstones.get(fault_id)

    def advice(self, fault_id: str) -> Fault | None:
        """The published fault that stands for an id: itself, or what took its place; None where nothing did."""
        entry = self.entry(fault_id)
        return self.published.get(self.stands_for.get(entry.id, entry.id)) if entry is not None else None
