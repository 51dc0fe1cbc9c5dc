"""What was said to the cases of a fault, kept as long as nothing of the fault has changed.

It follows from the fault's file, from those of its counted cases, from the machines and the club's lists, and from the
year, which decides what "still built" means. The shares of faults by codes follow from other faults too, and are not
kept.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence

from kbtools.index.answers import Index
from kbtools.model.case import Case
from kbtools.model.fault import Fault
from kbtools.model.memory import Memory
from kbtools.replay.advice import Advice

_WORK = "replay"
_FIELDS = ("cause", "shares", "judgement", "cost", "hand_over", "likeliest_first")


class Kept:
    """What a memory knows of the faults of one base."""

    def __init__(self, index: Index, memory: Memory) -> None:
        self._memory, self._digests = memory, index.base.digests
        # What no entry and no case says: club, systems, access, tools, shared checks, models.
        common = sorted(path for path in self._digests if "/" not in path or path.startswith("models/"))
        self._common = repr([*((path, self._digests[path]) for path in common), *index.years.items()]).encode()

    def key(self, fault: Fault, cases: Iterable[Case]) -> bytes | None:
        """All that the advice to these counted cases follows from; None where some of it is in no file."""
        digest = hashlib.sha256(self._common)
        for path in (fault.path, *(case.path for case in cases)):
            own = self._digests.get(path)
            if own is None:
                return None
            digest.update(f"\0{path}\0".encode() + own)
        return digest.digest()

    def known(self, key: bytes) -> list[Advice] | None:
        """What was said; None where it must be worked out."""
        rows = self._memory.worked_out(_WORK, key)
        return None if rows is None else [_advice(*row) for row in rows]

    def keep(self, key: bytes, found: Sequence[Advice]) -> None:
        """Keep what was said."""
        self._memory.keep_worked_out(_WORK, key, [[getattr(each, name) for name in _FIELDS] for each in found])


def _advice(cause: int, shares: list[float], judgement: list[float], *costs: float) -> Advice:
    """As it was kept, in the order of `_FIELDS`."""
    cost, hand_over, likeliest_first = costs
    return Advice(
        cause=cause,
        shares=tuple(shares),
        judgement=tuple(judgement),
        cost=cost,
        hand_over=hand_over,
        likeliest_first=likeliest_first,
    )
