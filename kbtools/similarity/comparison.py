"""The faults of a base compared with each other.

What came of it is kept by all that was looked at (`seen`): most edits change nothing of that, and then nothing is
compared. After the others `scores` compares what they touch.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, Final, TypeVar

from kbtools.index.entries import living
from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault
from kbtools.model.memory import Memory, shaped
from kbtools.similarity.features import Readier, last_year
from kbtools.similarity.scores import Scores
from kbtools.similarity.seen import of_all, seen_of_faults

_CAME_OUT: Final = "what came of comparing faults"

T = TypeVar("T")


class Comparison:
    """Some faults of one base."""

    def __init__(self, base: KnowledgeBase, faults: Sequence[Fault], memory: Memory | None = None) -> None:
        """Ask what is known of them.

        Args:
            base: the knowledge base.
            faults: those that are compared.
            memory: asked first; changes nothing but the time it takes.
        """
        self.faults: Final = tuple(faults)
        self._base, self._memory = base, memory
        seen = seen_of_faults(base) if memory is not None else {}
        self._seen = [seen[fault.id] for fault in self.faults] if memory is not None else []
        self._scores: Scores | None = None
        self._asked = of_all(base, (*self._seen, str(last_year(base)).encode())) if memory is not None else b""
        kept = shaped(memory.worked_out(_CAME_OUT, self._asked), dict[str, Any]) if memory is not None else None
        self._known: dict[str, Any] = kept or {}
        self._new = False

    @property
    def scores(self) -> Scores:
        """The faults compared pair by pair; made ready by the first one who asks."""
        if self._scores is None:
            self._scores = Scores(self._base, self.faults, self._seen, self._memory)
        return self._scores

    @property
    def readier(self) -> Readier:
        """The words of the faults."""
        return self.scores.readier

    def came_out(self, what: str, make: Callable[[], T], write: Callable[[T], Any], read: Callable[[Any], T]) -> T:
        """What is known to come of these faults, or else is made now.

        Args:
            what: its name; nothing but these faults, the club's lists and what the name says may matter.
            make: makes it.
            write: makes JSON of it.
            read: the way back.
        """
        known = shaped(self._known.get(what), read)
        if known is None:
            known = make()
            self._known[what] = write(known)
            self._new = True
        return known

    def keep(self) -> None:
        """Hand what is new to the memory."""
        if self._scores is not None:
            self._scores.keep()
        if self._memory is not None and self._new:
            self._memory.keep_worked_out(_CAME_OUT, self._asked, self._known)
            self._new = False


@per_base
def _kept(_base: KnowledgeBase) -> list[Comparison]:
    return []


def comparison(base: KnowledgeBase, memory: Memory | None = None) -> Comparison:
    """The comparison of all faults of a base that nobody has withdrawn, by file; the same one until it is `dropped`."""
    kept = _kept(base)
    if not kept:
        kept.append(Comparison(base, comparable(base), memory))
    return kept[0]


def dropped(base: KnowledgeBase) -> None:
    """Hand what is new to its memory, and let it go: it takes much room, and nobody asks any more."""
    for each in _kept(base):
        each.keep()
    _kept(base).clear()


def comparable(base: KnowledgeBase) -> list[Fault]:
    """The faults that are compared, by file."""
    return sorted(living(base).values(), key=lambda fault: fault.path)
