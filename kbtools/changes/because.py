"""Which files make an advice another one: each is put into the earlier state alone, to see whether the plan moves."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, replace

from kbtools.changes.advice import reckoned_with
from kbtools.index.answers import Index
from kbtools.index.cases import counted_naming, earlier_cases
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Club
from kbtools.model.fault import Fault

CLUB, SYSTEMS, CHECKS = "club.yml", "systems.yml", "checks.yml"
_OF_SYSTEMS = ("systems", "components", "access", "tools")
_WORTH_SHOWING = 60
"""Characters of a value of club.yml; a longer one is not shown."""


@dataclass(frozen=True, kw_only=True)
class Because:
    """What made the difference."""

    before: KnowledgeBase
    """As the files were."""
    now: KnowledgeBase
    """As they are."""
    touched: frozenset[str]
    """Files that differ, relative to the knowledge base's folder."""
    index_of: Callable[[KnowledgeBase], Index]
    """Makes the index of a base."""

    def of(self, was: Fault, fault: Fault) -> tuple[str, ...]:
        """The files behind a difference between two states of an entry, in order; never none."""
        found = {*self._own(was, fault), *self._shared(was, fault), *self._cases(was, fault)}
        found |= {path for path, index in self._one_by_one if self._moves(was, index)}
        # What moves the plan only together with something else has no single file; all that could are named.
        return tuple(sorted(found or self.touched & {CLUB, SYSTEMS, CHECKS} or {fault.path}))

    def of_gone(self, was: Fault) -> tuple[str, ...]:
        """The file in which it stood, and the entry that says that it took its place."""
        now = self.now.faults.get(was.id)
        return (was.path if now is None else now.path,)

    def club_keys(self) -> tuple[str, ...]:
        """What club.yml says otherwise, with both values where they are short."""
        if self.before.club is None or self.now.club is None:
            return ()
        return tuple(_differing(self.before.club, self.now.club))

    def _own(self, was: Fault, fault: Fault) -> Iterator[str]:
        yield from {was.path, fault.path} & self.touched

    def _shared(self, was: Fault, fault: Fault) -> Iterator[str]:
        """Shared checks stand whole in the entry that uses them."""
        used = {check.id for each in (was, fault) for check in each.checks if check.use is not None}
        if any(self.before.checks.get(each) != self.now.checks.get(each) for each in used):
            yield CHECKS
        if (
            self.before.club is not None
            and self.now.club is not None
            and self.before.club.format != self.now.club.format
        ):
            yield CLUB

    def _cases(self, was: Fault, fault: Fault) -> Iterator[str]:
        sides = ((self.before, was), (self.now, fault))
        told = [{case.path: case for case in counted_naming(base).get(each.id, ())} for base, each in sides]
        for path in told[0].keys() | told[1].keys():
            if told[0].get(path) != told[1].get(path) and path in self.touched:
                yield path
        # A case that goes on with an earlier one takes that one out of the count, and is perhaps not counted itself.
        gone = {case.id for path, case in told[0].items() if path not in told[1]}
        followers = (self.now.cases[case] for case, earlier in earlier_cases(self.now).items() if earlier in gone)
        yield from (case.path for case in followers if case.path in self.touched)

    @functools.cached_property
    def _one_by_one(self) -> tuple[tuple[str, Index], ...]:
        """The earlier state with one file as it is now, for the files on which any plan may depend."""
        found = []
        if self.before.club is not None and self.now.club is not None and CLUB in self.touched:
            found.append((CLUB, self.index_of(replace(self.before, club=self.now.club))))
        if self.before.club is not None and SYSTEMS in self.touched:
            new = replace(self.before, **{each: getattr(self.now, each) for each in _OF_SYSTEMS})
            found.append((SYSTEMS, self.index_of(new)))
        for path in sorted(each for each in self.touched if each.startswith("models/")):
            models = {
                **self.before.models,
                **{each: model for each, model in self.now.models.items() if model.path == path},
            }
            if self.before.club is not None:
                found.append((path, self.index_of(replace(self.before, models=models))))
        return tuple(found)

    @functools.cached_property
    def _before(self) -> Index | None:
        return self.index_of(self.before) if self.before.club is not None else None

    def _moves(self, was: Fault, index: Index) -> bool:
        return reckoned_with(was, index) != reckoned_with(was, self._before)


def _differing(one: Club, other: Club) -> Iterator[str]:
    for each in fields(Club):
        old, new = getattr(one, each.name), getattr(other, each.name)
        if old != new and each.name not in {"path", "at"}:
            told = f"{_value(old)} → {_value(new)}"
            yield f"{each.name} {told}" if len(told) <= _WORTH_SHOWING else each.name


def _value(value: object) -> str:
    low, high = getattr(value, "low", None), getattr(value, "high", None)
    if low is not None and high is not None:
        return f"{low:g}" if low == high else f"{low:g} to {high:g}"
    return f"{value:g}" if isinstance(value, float) else str(getattr(value, "text", value))
