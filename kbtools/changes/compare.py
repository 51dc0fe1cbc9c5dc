"""Which published faults advise something else than before, and what."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from kbtools.changes.advice import Advice, Plans, plans, reckoned_with, signs
from kbtools.changes.because import Because
from kbtools.index.answers import Index
from kbtools.index.entries import published
from kbtools.index.milder import is_milder, predecessor
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault

Side = Literal["before", "now"]
State = Literal["new", "gone", "changed"]

_SAME = 1e-9
"""Costs and shares that differ by less, relatively, are the same: sums in another order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A fault whose advice is another than before."""

    fault: str
    """Its id, today's where it was renamed."""
    title: str
    """Its title, today's where it has one. Hostile."""
    state: State
    """Whether it was published before, and is now."""
    before: Advice | None
    """None: it was not published."""
    now: Advice | None
    """None: it is not published."""
    because: tuple[str, ...]
    """Files that make the difference, relative to the knowledge base's folder."""

    @property
    def milder(self) -> bool:
        """Whether it allows riding that it did not allow."""
        return self.before is not None and self.now is not None and is_milder(self.before.level, self.now.level)


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """Two knowledge bases side by side."""

    changes: tuple[Change, ...]
    """Milder ones first, then by fault."""
    unread: tuple[tuple[Side, str], ...] = ()
    """What could not be compared: on which side, and the file."""
    club_keys: tuple[str, ...] = ()
    """What club.yml says otherwise, `own_time_value 15 → 20`. Hostile."""
    currency: str = ""
    """ISO 4217 code of the costs; empty where neither state tells."""


def compared(
    before: KnowledgeBase, now: KnowledgeBase, touched: frozenset[str], index_of: Callable[[KnowledgeBase], Index]
) -> Compared:
    """What the published advice says otherwise now.

    Args:
        before: as the files were.
        now: as they are.
        touched: files that differ, relative to the knowledge base's folder.
        index_of: makes the index of a base for today (`index_for`).
    """
    work = _Work(before, now, touched, index_of)
    club = now.club or before.club
    changes = [change for change in work.changes() if change is not None]
    return Compared(
        changes=tuple(sorted(changes, key=lambda each: (not each.milder, each.fault))),
        unread=tuple(sorted(work.unread)),
        club_keys=work.because.club_keys(),
        currency=club.currency if club is not None else "",
    )


class _Work:
    """The comparison, fault by fault."""

    def __init__(
        self,
        before: KnowledgeBase,
        now: KnowledgeBase,
        touched: frozenset[str],
        index_of: Callable[[KnowledgeBase], Index],
    ) -> None:
        self.before, self.now = before, now
        self.old_index = index_of(before) if before.club is not None else None
        self.new_index = index_of(now) if now.club is not None else None
        self.because = Because(before=before, now=now, touched=touched, index_of=index_of)
        self.unread: set[tuple[Side, str]] = set()
        sides: tuple[tuple[Side, KnowledgeBase], ...] = (("before", before), ("now", now))
        for side, base in sides:
            if base.club is None:
                self.unread.add((side, "club.yml"))

    def changes(self) -> Iterator[Change | None]:
        old, new = published(self.before), published(self.now)
        met = set()
        for fault in new.values():
            was = predecessor(fault, self.before)
            if was is not None and was.id in old:
                met.add(was.id)
                yield self._pair(was, fault)
            else:
                yield self._new(fault)
        for fault in old.values():
            if fault.id not in met:
                yield self._gone(fault)

    def _pair(self, was: Fault, fault: Fault) -> Change | None:
        if was != fault and self._damaged(("before", was), ("now", fault)):
            return None
        with_old, with_new = reckoned_with(was, self.old_index), reckoned_with(fault, self.new_index)
        if with_old is not None and with_new is not None:
            # The name of the fault alone changes nothing that is advised.
            with_old = replace(with_old, fault=with_new.fault)
        same_plan = with_old == with_new or self.old_index is None or self.new_index is None
        if same_plan and was.ride_level == fault.ride_level and signs(was) == signs(fault):
            return None
        plan = plans(with_new)
        before = Advice(level=was.ride_level, signs=signs(was), plan=plan if same_plan else plans(with_old))
        now = Advice(level=fault.ride_level, signs=signs(fault), plan=plan)
        if _alike(before, now):
            return None
        return Change(
            fault=fault.id,
            title=fault.title,
            state="changed",
            before=before,
            now=now,
            because=self.because.of(was, fault),
        )

    def _new(self, fault: Fault) -> Change | None:
        if self._damaged(("now", fault)):
            return None
        now = Advice(level=fault.ride_level, signs=signs(fault), plan=plans(reckoned_with(fault, self.new_index)))
        return Change(fault=fault.id, title=fault.title, state="new", before=None, now=now, because=(fault.path,))

    def _gone(self, was: Fault) -> Change | None:
        if self._damaged(("before", was)):
            return None
        before = Advice(level=was.ride_level, signs=signs(was), plan=plans(reckoned_with(was, self.old_index)))
        return Change(
            fault=was.id, title=was.title, state="gone", before=before, now=None, because=self.because.of_gone(was)
        )

    def _damaged(self, *faults: tuple[Side, Fault]) -> bool:
        """Whether an entry cannot be compared; it is told, and the rest is."""
        bad: list[tuple[Side, str]] = [(side, fault.path) for side, fault in faults if fault.damaged]
        self.unread.update(bad)
        return bool(bad)


def _alike(one: Advice, other: Advice) -> bool:
    return one.level == other.level and one.signs == other.signs and _alike_plans(one.plan, other.plan)


def _alike_plans(one: Plans, other: Plans) -> bool:
    return (
        one.first == other.first
        and one.likeliest == other.likeliest
        and one.shares.keys() == other.shares.keys()
        and all(_close(share, other.shares[cause]) for cause, share in one.shares.items())
        and _close(one.expected_cost, other.expected_cost)
        and _close(one.hand_over, other.hand_over)
    )


def _close(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return abs(one - other) <= _SAME * max(abs(one), abs(other))
