"""Cases that are about no entry yet: which one they may belong to, and which of them tell of the same trouble.

The comparison of cases asks whether two are the same event; here it is the trouble that is compared, on any bike.
"""

from __future__ import annotations

import heapq
import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from kbtools.index.cases import followed, without_fault
from kbtools.index.entries import published
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.fault import Fault
from kbtools.model.memory import Memory
from kbtools.similarity.cases import ReadyCase, ready_cases
from kbtools.similarity.features import Readier, last_year, texts
from kbtools.similarity.lexicon import Lexicon
from kbtools.similarity.seen import of_all, seen_of_case, seen_of_faults
from kbtools.similarity.text_query import as_fault, asking_for
from kbtools.vocabulary.stems import sequence, telling

MOST = 40
"""So many cases are looked at, the last seen first: nobody sorts more of them in one go."""
_CANDIDATES = 12
"""So many entries are compared with a case: those with which it shares most."""
_LEAST = 0.5
"""So much of what a case says an entry has to say, too. More than for a question: nobody waits for this answer."""
_WORK = "unsorted"
_ALIKE = 0.5
"""How alike the words of two cases are, at least, that tell of the same trouble. Found by trying on the demo."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unsorted:
    """What the cases without a fault resemble."""

    entries: Mapping[str, str]
    """Id of a case → id of the published fault that it may be about."""
    groups: tuple[tuple[str, ...], ...]
    """Ids of the cases that seem to tell of the same trouble, of which no entry is known."""


def unsorted(base: KnowledgeBase, memory: Memory | None = None) -> Unsorted:
    """Compare the cases that name no fault with the published entries, and the rest of them with each other.

    Cases that a later one follows are left out, since that one tells the rest of the story; damaged ones as well. Asked
    first is a memory, if there is one: as long as nothing has changed that is compared it knows the answer.
    """
    cases = _looked_at(base)
    if memory is None or not base.digest:
        return _compared(base, cases)
    asked = _asked(base, cases)
    known = memory.worked_out(_WORK, asked)
    if known is not None:
        return Unsorted(entries=known["entries"], groups=tuple(map(tuple, known["groups"])))
    found = _compared(base, cases)
    memory.keep_worked_out(_WORK, asked, {"entries": found.entries, "groups": found.groups})
    return found


def _looked_at(base: KnowledgeBase) -> Sequence[Case]:
    gone = followed(base)
    return [case for case in without_fault(base) if case.id not in gone and not case.damaged and _says(case)][:MOST]


def _asked(base: KnowledgeBase, cases: Iterable[Case]) -> bytes:
    """Changes with all that is compared: the published entries, these cases, the club's lists."""
    seen = seen_of_faults(base)
    entries = (seen[each] for each in published(base))
    return of_all(base, (*entries, str(last_year(base)).encode(), *map(seen_of_case, cases)))


def _compared(base: KnowledgeBase, cases: Sequence[Case]) -> Unsorted:
    entries = _entries(base, cases)
    return Unsorted(entries=entries, groups=_groups(base, [case for case in cases if case.id not in entries]))


def _says(case: Case) -> str:
    codes = (code.read.text for code in case.codes)
    return " ".join((*codes, *case.symptoms))


def _entries(base: KnowledgeBase, cases: Sequence[Case]) -> Mapping[str, str]:
    """Id of a case → id of the entry that it reads like.

    Only entries that share something with a case are made ready: that takes longer than all the rest.
    """
    faults = list(published(base).values())
    words = _by_word(faults) if cases else {}
    fitting = {case.id: _fitting(case, faults, words) for case in cases}
    near = {fault.id: fault for each in fitting.values() for fault in each}
    if not near:
        return {}
    asked = {case.id: as_fault(base, _says(case)) for case in cases}
    readier = Readier(base, [*near.values(), *asked.values()])
    asking = asking_for(readier.lexicon)
    ready = {fault: readier.ready(each) for fault, each in near.items()}
    found = {}
    for case, candidates in fitting.items():
        wanted = readier.ready(asked[case])
        scored = [(asking.compare(wanted, ready[fault.id]).score, fault.id) for fault in candidates]
        best = max(scored, default=(0.0, ""))
        if best[0] >= _LEAST:
            found[case] = best[1]
    return found


def _fitting(case: Case, faults: Sequence[Fault], words: Mapping[str, Sequence[str]]) -> list[Fault]:
    """The entries for the same model that share most words with a case, and those that share a code."""
    votes: dict[str, float] = defaultdict(float)
    for word in _words(case.symptoms):
        for fault in words.get(word, ()):
            votes[fault] += math.log((len(faults) + 1) / len(words[word]))
    best = heapq.nsmallest(_CANDIDATES, votes.items(), key=lambda each: (-each[1], each[0]))
    near = {fault for fault, _ in best}
    codes = {code.read.text.upper() for code in case.codes}
    return [fault for fault in faults if (fault.id in near or _sets(fault, codes)) and _concerns(fault, case)]


def _concerns(fault: Fault, case: Case) -> bool:
    model = case.vehicle.model
    return model is None or any(row.model == model for row in fault.applies_to)


def _sets(fault: Fault, codes: set[str]) -> bool:
    return any(row.read.text.upper() in codes for row in fault.codes)


def _by_word(faults: Sequence[Fault]) -> Mapping[str, Sequence[str]]:
    """Word → ids of the entries that say it."""
    found: dict[str, list[str]] = defaultdict(list)
    for fault in faults:
        for word in _words(texts(fault)):
            found[word].append(fault.id)
    return found


def _words(said: Iterable[str]) -> Iterable[str]:
    return dict.fromkeys(word for text in said for word in telling(sequence(text)))


def _groups(base: KnowledgeBase, cases: Sequence[Case]) -> tuple[tuple[str, ...], ...]:
    ready, lexicon = ready_cases(base, cases)
    group = list(range(len(ready)))
    for right in range(len(ready)):
        for left in range(right):
            if group[left] != group[right] and _same_trouble(ready[left], ready[right], lexicon):
                old, new = group[right], group[left]
                group = [new if each == old else each for each in group]
    members: dict[int, list[str]] = defaultdict(list)
    for number, each in enumerate(group):
        members[each].append(ready[number].id)
    return tuple(tuple(ids) for ids in members.values() if len(ids) > 1)


def _same_trouble(one: ReadyCase, other: ReadyCase, lexicon: Lexicon) -> bool:
    mine, theirs = lexicon.bag(one.said), lexicon.bag(other.said)
    if mine is None or theirs is None:
        return False
    alike = lexicon.alike(mine, theirs)
    return alike >= _ALIKE or (alike >= _ALIKE / 2 and bool(set(one.codes or ()) & set(other.codes or ())))
