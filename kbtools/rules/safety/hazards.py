"""Which work is work on fuel or on the battery, and which cautions are about it, as a club's own files tell.

The format has no field for it. It is told from words in ids and names: those that the vocabulary has for that danger,
and every word that `words.yml` adds to it or holds for the same as one of them. So a club that writes in another
language needs a row such as `[fuel, combustibil]` at most.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from kbtools.index.access import access_needs, nearest_first
from kbtools.index.words import vocabulary
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Access, Caution, Component
from kbtools.vocabulary.whole import Vocabulary

_KINDS = ("fuel", "battery")
"""The dangers that are looked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hazard:
    """A thing that burns or gives off what does."""

    name: str
    """`fuel` or `battery`."""
    cautions: frozenset[str]
    """Ids of the club's cautions about it."""


def hazards(base: KnowledgeBase) -> tuple[Hazard, ...]:
    """The hazards, with the club's words and cautions."""
    about = {each.id: _about(each, vocabulary(base)) for each in base.cautions.values()}
    return tuple(Hazard(name=name, cautions=frozenset(key for key in about if name in about[key])) for name in _KINDS)


def _about(caution: Caution, known: Vocabulary) -> frozenset[str]:
    """What a caution is about: by its id if that names any hazard of ours, else by its text."""
    return _named(known, caution.id) or _named(known, caution.text)


def _named(known: Vocabulary, *texts: str) -> frozenset[str]:
    return frozenset(kind for text in texts for kind in known.dangers(text) if kind in _KINDS)


def asked_by_job(base: KnowledgeBase, dangers: Sequence[Hazard]) -> dict[str, tuple[tuple[Access, str], ...]]:
    """Access job → the cautions about hazards of it and of the jobs that it needs, each with its job."""
    about = {each for hazard in dangers for each in hazard.cautions}
    return {
        identity: tuple((job, each) for job in _with_needs(base, identity) for each in job.cautions if each in about)
        for identity in base.access
    }


def _with_needs(base: KnowledgeBase, identity: str) -> list[Access]:
    """Those that do not exist are KB305's."""
    return [base.access[each] for each in nearest_first([identity], access_needs(base)) if each in base.access]


def hazard_of_component(base: KnowledgeBase, dangers: Sequence[Hazard]) -> dict[str, Hazard]:
    """Component → the hazard that work on it is work on; those that are none are left out."""
    found = {each.id: _hazard_of(each, dangers, vocabulary(base)) for each in base.components.values()}
    return {component: hazard for component, hazard in found.items() if hazard is not None}


def _hazard_of(component: Component, dangers: Sequence[Hazard], known: Vocabulary) -> Hazard | None:
    """Work on a component is work on the hazard itself if it has its name and is no electrical part."""
    texts = (component.id, component.name)
    if any(known.is_harmless(text) for text in texts):
        return None
    named = _named(known, *texts)
    return next((hazard for hazard in dangers if hazard.name in named), None)
