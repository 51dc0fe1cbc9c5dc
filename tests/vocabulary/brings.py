"""What each group of the vocabulary brings, counted on the sets that it may be chosen on.

A group brings something to the comparison where one of two entries has one of its phrases and the other has another
one: right if the two are the same, wrong if they are not. It brings something to the finder where a query has one of
its phrases and an entry that should come first has another one. Neither says how much: a pair may be found without it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fnmatch import fnmatchcase
from itertools import chain

from kbtools.browser_data.finder.phrases import loose, telling, together
from kbtools.edges.folder import load
from kbtools.edges.shipped import tables
from kbtools.model.fault import Fault
from kbtools.vocabulary.stems import sequence
from kbtools.vocabulary.whole import Meaning, Stems, Vocabulary, stems_of
from tests.support import labelled_entries as labelled
from tests.support.finder_queries import labelled as labelled_queries
from tests.support.places import DEMO

Named = Mapping[int, frozenset[Stems]]
"""Number of a group → its phrases that a text has."""


@dataclass(slots=True, kw_only=True)
class Brought:
    """What one group brings."""

    right: int = 0
    """Pairs of entries of one story that it joins."""
    wrong: int = 0
    """Pairs that read alike and are not the same, joined by it."""
    queries: int = 0
    """Queries to choose on that it leads to an entry that should come first."""
    met: set[Stems] = field(default_factory=set)
    """Its phrases that some text or query has."""


class Groups:
    """Every group, ready for finding the phrases of a text."""

    def __init__(self, groups: Sequence[Meaning]) -> None:
        self._by_first: dict[str, list[tuple[Stems, int]]] = {}
        self._loose: dict[str, list[tuple[Stems, int]]] = {}
        for number, group in enumerate(groups):
            for each in group.phrases:
                way = stems_of(each)
                if way:
                    self._by_first.setdefault(way[0], []).append((way, number))
                    self._loose.setdefault(together(telling(each)), []).append((way, number))

    def named(self, texts: Iterable[str]) -> Named:
        found: dict[int, set[Stems]] = {}
        for text in texts:
            words = sequence(text)
            for start, first in enumerate(words):
                for way, number in self._by_first.get(first, ()):
                    if tuple(words[start : start + len(way)]) == way:
                        found.setdefault(number, set()).add(way)
            for term in loose(text):
                for way, number in self._loose.get(term, ()):
                    found.setdefault(number, set()).add(way)
        return {number: frozenset(ways) for number, ways in found.items()}


def joins(left: Named, right: Named) -> Iterator[int]:
    """The groups of which the two have phrases, and no common one."""
    return (number for number in left.keys() & right.keys() if left[number].isdisjoint(right[number]))


def texts_of(fault: Fault) -> list[str]:
    """What an entry says in words."""
    fixes = (cause.fix.summary for cause in fault.causes if cause.fix is not None)
    causes = (cause.summary for cause in fault.causes)
    checks = chain.from_iterable((check.do, check.expect) for check in fault.checks)
    return [fault.title, *fault.symptoms, *(text for text in (*causes, *fixes, *checks) if text)]


def brought() -> tuple[Sequence[Meaning], list[Brought]]:
    """Every group with what it brings."""
    groups = Vocabulary(tables=tables()).groups
    ready, found = Groups(groups), [Brought() for _ in groups]

    def named(texts: Iterable[str]) -> Named:
        told = ready.named(texts)
        for number, ways in told.items():
            found[number].met |= ways
        return told

    for part in labelled.CHOSEN:
        chosen = labelled.faults(part)
        entries = {name: named(texts_of(fault)) for name, fault in chosen.base.faults.items()}
        for pairs, right in ((chosen.same, True), (chosen.other, False)):
            for pair in pairs:
                for number in joins(*(entries[each] for each in pair)):
                    found[number].right += right
                    found[number].wrong += not right
    base = load(DEMO).base
    entries = {f"faults/{fault.id}": named(texts_of(fault)) for fault in base.faults.values()}
    entries |= {f"components/{part.id}": named([part.name]) for part in base.components.values()}
    for query in labelled_queries("choose"):
        asked = named([query.text])
        wanted = [told for address, told in entries.items() if any(fnmatchcase(address, each) for each in query.first)]
        for number in {number for told in wanted for number in joins(asked, told)}:
            found[number].queries += 1
    return groups, found
