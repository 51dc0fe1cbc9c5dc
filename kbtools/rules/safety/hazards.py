"""Which work is work on fuel or on the battery, and which cautions are about it, as a club's own files tell.

What a caution is about is told by its `hazard`, and whatever it holds for by system, component or access job is such
work: that caution comes with it (`kbtools/index/cautions.py`). Where nobody has written one, words tell: those that the
vocabulary has for that danger in ids and names, and every word that `words.yml` adds to it or holds for the same as one
of them. So a club that writes in another language needs a row such as `[fuel, combustibil]` at most.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from kbtools.index.access import access_jobs
from kbtools.index.per_base import per_base
from kbtools.index.words import vocabulary
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Access, Caution, Component
from kbtools.vocabulary.whole import Vocabulary

_KINDS = ("fuel", "battery")
"""The dangers that are looked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Danger:
    """A row of `systems.yml` that is a danger by its name."""

    kind: str
    """`fuel` or `battery`."""
    row: Component | Access
    """What bears the name."""


@per_base
def cautions_about(base: KnowledgeBase) -> Mapping[str, frozenset[str]]:
    """`fuel`, `battery` → ids of the club's cautions about it; without those that no caution is about."""
    about = {each.id: _about(each, vocabulary(base)) for each in base.cautions.values()}
    found = {kind: frozenset(key for key, kinds in about.items() if kind in kinds) for kind in _KINDS}
    return {kind: ids for kind, ids in found.items() if ids}


def _about(caution: Caution, known: Vocabulary) -> frozenset[str]:
    """What a caution is about: as its author says, else by its id if that names any hazard of ours, else its text."""
    if caution.hazard is not None:
        return frozenset({caution.hazard})
    return _named(known, caution.id) or _named(known, caution.text)


def _named(known: Vocabulary, *texts: str) -> frozenset[str]:
    return frozenset(kind for text in texts for kind in known.dangers(text) if kind in _KINDS)


def dangers_touched(base: KnowledgeBase, component_id: str | None, jobs: Iterable[str]) -> Iterator[Danger]:
    """What work touches that is a danger by its name and no electrical part: its component, then its access jobs."""
    rows = _dangers_by_name(base)
    for identity in [("component", component_id or ""), *(("access", job.id) for job in access_jobs(jobs, base))]:
        if identity in rows:
            yield rows[identity]


@per_base
def _dangers_by_name(base: KnowledgeBase) -> Mapping[tuple[str, str], Danger]:
    every: list[tuple[tuple[str, str], Component | Access]] = [
        *((("component", each.id), each) for each in base.components.values()),
        *((("access", each.id), each) for each in base.access.values()),
    ]
    found: dict[tuple[str, str], Danger] = {}
    known = vocabulary(base)
    for identity, row in every:
        named: frozenset[str] = frozenset() if _is_harmless(known, row) else _named(known, row.id, row.name)
        kind = next((each for each in _KINDS if each in named and each in cautions_about(base)), None)
        if kind is not None:
            found[identity] = Danger(kind=kind, row=row)
    return found


def _is_harmless(known: Vocabulary, row: Component | Access) -> bool:
    return any(known.is_harmless(text) for text in (row.id, row.name))
