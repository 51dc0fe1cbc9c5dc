"""Rules that hold a case against its fault: asked again only of faults of which, or of whose cases, a file has changed.

What such a rule finds in a case follows from the case, its fault and the club's lists alone. Most faults have nothing
to be found with their cases, and of these a memory keeps nothing but that.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from typing import Final, Protocol

from kbtools.index.entries import cases
from kbtools.index.narrowed import digests_with_cases, narrowed
from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.fault import Fault
from kbtools.model.memory import Memory
from kbtools.model.pool import Pool
from kbtools.rules.rule import Breach

_NOTHING: Final = "faults and cases without findings"

OfCase = Callable[[Case, Fault, KnowledgeBase, dt.date], Iterator[Breach]]
"""What is wrong with a case, given its fault."""


class CheckBeside(Protocol):
    """The check of a rule, with a memory or without."""

    def __call__(self, base: KnowledgeBase, today: dt.date, memory: Memory | None = None) -> Iterator[Breach]:
        """As `kbtools.rules.rule.CheckWith`."""


def beside(code: str, of_case: OfCase, *, this_day: bool = False) -> CheckBeside:
    """The check of a rule that looks at each case beside its fault.

    Args:
        code: the rule's.
        of_case: what it finds in a case; the base that it is given holds the club's lists alone.
        this_day: whether today matters; if not, it is told nonsense.
    """

    def check(base: KnowledgeBase, today: dt.date, memory: Memory | None = None) -> Iterator[Breach]:
        day, lists = today if this_day else dt.date.min, _lists(base)
        quiet = _Quiet(base, memory, f"{code} {day}")
        for case in cases(base):
            fault = base.faults.get(case.fault or "")
            if fault is not None and not quiet.known(fault.id):
                for each in of_case(case, fault, lists, day):
                    quiet.disturb(fault.id)
                    yield each
        quiet.keep()

    return check


class _Quiet:
    """The faults with whose cases nothing is wrong."""

    def __init__(self, base: KnowledgeBase, memory: Memory | None, asked: str) -> None:
        self._names = digests_with_cases(base) if memory is not None else {}
        self._pool = Pool(memory, _NOTHING, asked.encode())
        self._known = {fault: name in self._pool for fault, name in self._names.items()}
        self._loud: set[str] = set()

    def known(self, fault: str) -> bool:
        """Whether nothing was found there before."""
        return self._known.get(fault, False)

    def disturb(self, fault: str) -> None:
        """Note that something was found there."""
        self._loud.add(fault)

    def keep(self) -> None:
        """Hand to the memory of which faults nothing was found."""
        for fault, name in self._names.items():
            if self._known[fault]:
                self._pool.get(name)
            elif fault not in self._loud:
                self._pool.put(name, None)
        self._pool.keep()


@per_base
def _lists(base: KnowledgeBase) -> KnowledgeBase:
    return narrowed(base, frozenset())
