"""What each two faults of a base score, and what of it an earlier run has worked out already.

How rare a word is depends on all entries, so an edit of one may change what another two score. Two things are kept
apart therefore. What an entry says (its words without endings, what they stand for, on which side it stands) is dear to
find out and follows from the entry, the club's lists, and from other entries only where they tell how a word of its own
is spelt: `Readier.odd`. What its words count for is found anew each time, which is cheap. What a pair scores is kept by
both: what the two say and what each of their words counts for. So it is never an earlier base's score that is told.
"""

from __future__ import annotations

import base64
import json
from array import array
from collections.abc import Iterable, Sequence
from typing import Final

from kbtools.index.narrowed import lists_digest
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault
from kbtools.model.memory import Memory
from kbtools.model.pool import Pool, key
from kbtools.similarity.blocking import Blocks
from kbtools.similarity.engine import Match
from kbtools.similarity.faults import matcher
from kbtools.similarity.features import Readier
from kbtools.similarity.ready import ReadyFault, SaidFault, as_row, of_row
from kbtools.similarity.search import MatchedPair, Search

_SAID: Final = "what a fault says"
_FOUND: Final = "how faults are found"
_SCORED: Final = "faults compared"


class Scores:
    """Some faults of one base, compared pair by pair."""

    def __init__(
        self, base: KnowledgeBase, faults: Sequence[Fault], seen: Sequence[bytes], memory: Memory | None
    ) -> None:
        """Make them ready as far as it is not known.

        Args:
            base: the knowledge base.
            faults: those that are compared.
            seen: all that is compared of each; empty without a memory.
            memory: asked first; changes nothing but the time it takes.
        """
        self._faults = faults
        self.readier: Final = Readier(base, faults)
        self._matcher = matcher(self.readier.lexicon)
        self._memory = memory
        lists = lists_digest(base) if memory is not None else b""
        self._found, self._scored = Pool(memory, _FOUND, lists), Pool(memory, _SCORED, lists)
        self._ready: dict[int, ReadyFault] = {}
        self._said: dict[int, bytes] = {}
        self._names: list[bytes] = []
        self._keys = [self._known(lists, number, seen) for number in range(len(faults))]

    def pairs(self, search: Search) -> list[MatchedPair]:
        """The pairs that are looked for, best first."""
        blocks = Blocks(self._keys, search.limits)
        found = []
        for left, right in blocks.pairs(search.watch(range(len(self._faults)))):
            match = self._at_least(left, right, search.least)
            if match is not None:
                found.append(MatchedPair(left=left, right=right, match=match))
        return sorted(found, key=lambda each: (-each.match.score, each.left, each.right))

    def compare(self, left: int, right: int) -> Match:
        """How two of the faults compare, by their numbers."""
        if self._memory is None:
            return self._matcher.compare(self._made(left), self._made(right))
        name = self._whole(left, right)
        if name not in self._scored:
            match = self._matcher.compare(self._made(left), self._made(right))
            self._scored.put(name, [match.score, match.fields])
            return match
        score, fields = self._scored.get(name)
        return Match(score=score, fields=fields)

    def keep(self) -> None:
        """Hand what is new to the memory."""
        self._found.keep()
        self._scored.keep()

    def _at_least(self, left: int, right: int, least: float) -> Match | None:
        """How two compare; None where they score less."""
        name = b""
        if self._memory is not None:
            name = key(str(least).encode(), self._names[left], self._names[right])
            if name in self._scored:
                told = self._scored.get(name)
                return None if told is None else self.compare(left, right)
        match = self._matcher.compare_from(least, self._made(left), self._made(right))
        if self._memory is not None:
            self._scored.put(name, None if match is None else 1)
            if match is not None:
                self._scored.put(self._whole(left, right), [match.score, match.fields])
        return match

    def _whole(self, left: int, right: int) -> bytes:
        return key(b"whole", self._names[left], self._names[right])

    def _known(self, lists: bytes, number: int, seen: Sequence[bytes]) -> array[int]:
        """The keys of a fault; its name is noted, which changes with all that its scores follow from."""
        fault = self._faults[number]
        if self._memory is None:
            return self._made(number).keys
        odd = json.dumps(self.readier.odd(fault)).encode()
        name = key(lists, seen[number], odd, str(self.readier.last_year).encode())
        self._said[number] = name
        if name not in self._found:
            said = self.readier.said(fault)
            self._ready[number] = self.readier.weighed(said)
            self._memory.keep_worked_out(_SAID, name, as_row(said))
            words = {word: None for each in _texts(said) for word in each}
            self._found.put(name, [list(words), said.components, base64.b64encode(said.keys.tobytes()).decode()])
        words, components, keys = self._found.get(name)
        self._names.append(key(name, self.readier.weights(words, components)))
        return array("Q", base64.b64decode(keys))

    def _made(self, number: int) -> ReadyFault:
        # Each is held, some sixteen kilobytes: to make one ready again takes as long as ten comparisons.
        made = self._ready.get(number)
        if made is None:
            made = self._ready[number] = self.readier.weighed(self._what(number))
        return made

    def _what(self, number: int) -> SaidFault:
        row = None
        if self._memory is not None and number in self._said:
            row = self._memory.worked_out(_SAID, self._said[number])
        return self.readier.said(self._faults[number]) if row is None else of_row(row)


def _texts(said: SaidFault) -> Iterable[Iterable[str]]:
    for each in (said.title, said.symptoms, said.everything, said.work, *(cause.words for cause in said.causes)):
        yield each.words
