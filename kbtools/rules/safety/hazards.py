"""Which work is work on fuel or on the battery, and which cautions are about it, as a club's own files tell.

The format has no field for it. It is told from words: those below, in ids and names, and every word that `words.yml`
holds for the same as one of them. So a club that writes in another language needs a group such as
`[fuel, combustibil]` at most.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from kbtools.index.access import access_needs, nearest_first
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Access, Caution, Component

_WORDS = {
    "fuel": (
        "fuel petrol gasoline benzin kraftstoff essence carburant benzina carburante combustible gasolina combustivel "
        "benzine brandstof bensin drivmedel drivstoff benzyna paliwo benzín palivo bensiini"
    ),
    "battery": "battery accumulator batterie akku batteria bateria batería accu batteri akumulator baterie akku",
}
_ELECTRICAL = frozenset(
    {"relay", "fuse", "sensor", "wiring", "wire", "loom", "switch", "gauge", "lamp", "unit", "plug", "connector"}
    | {"relais", "sicherung", "sensoren", "kabel"}
)
"""Words of parts that belong to the fuel system and are worked on without opening it."""
_LETTERS = re.compile(r"[^\W\d_]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Hazard:
    """A thing that burns or gives off what does."""

    name: str
    """`fuel` or `battery`."""
    words: frozenset[str]
    """Words for it, in small letters."""
    cautions: frozenset[str]
    """Ids of the club's cautions about it."""

    def names(self, *texts: str) -> bool:
        """Whether one of the texts has a word for it."""
        return not self.words.isdisjoint(_words(*texts))


def hazards(base: KnowledgeBase) -> tuple[Hazard, ...]:
    """The hazards, with the club's words and cautions."""
    return tuple(_hazard(base, name, frozenset(words.split())) for name, words in _WORDS.items())


def _hazard(base: KnowledgeBase, name: str, words: frozenset[str]) -> Hazard:
    for group in base.words:
        same = _words(*group)
        if not same.isdisjoint(words):
            words |= same
    about = (each.id for each in base.cautions.values() if _is_about(each, words))
    return Hazard(name=name, words=words, cautions=frozenset(about))


def _is_about(caution: Caution, words: frozenset[str]) -> bool:
    """By its id if that names any hazard of ours, else by its text."""
    named = _words(caution.id)
    every = {word for each in _WORDS.values() for word in each.split()}
    return not words.isdisjoint(named if named & (every | words) else _words(caution.text))


def _words(*texts: str) -> frozenset[str]:
    return frozenset(word for text in texts for word in _LETTERS.findall(text.casefold()))


def works_on(component: Component, hazard: Hazard) -> bool:
    """Whether work on a component is work on the hazard itself: it has its name and is no electrical part."""
    return hazard.names(component.id, component.name) and _ELECTRICAL.isdisjoint(_words(component.id, component.name))


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
    found = (
        (each, next((hazard for hazard in dangers if works_on(each, hazard)), None))
        for each in base.components.values()
    )
    return {component.id: hazard for component, hazard in found if hazard is not None}
