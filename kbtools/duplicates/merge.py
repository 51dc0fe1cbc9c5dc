"""One draft of two faults: what both say, each thing once, ids unique and references adjusted.

It is meant to be edited. Nothing is made up: where the two cannot both be kept, the first one's word stands and a note
says what was left out.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final, TypeVar

from kbtools.duplicates.readied import Readier
from kbtools.matching.likeness import Lexicon
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import RIDE_LEVELS, AppliesTo, Cause, Check, Fault, Reading, RideAdvice, Source
from kbtools.model.years import union

T = TypeVar("T")

_SAME_CAUSE: Final = 0.55
"""Likeness of the summaries of two causes of one component from which they are one."""
_MOST: Final = 12
"""Causes, and checks, that an entry may have."""
_MOST_ACCESS: Final = 4
"""Access jobs that an entry may have."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Merged:
    """A draft of two faults, and what it takes to put it in their place."""

    fault: Fault
    """The draft; it bears the first one's id."""
    causes: Mapping[str, str]
    """Id of a cause of the second one → its id in the draft."""
    checks: Mapping[str, str]
    """Id of a check of the second one → its id in the draft."""
    cases: tuple[str, ...]
    """Ids of the cases that name the second one."""
    named_by: tuple[str, ...]
    """Ids of other faults that name the second one."""
    notes: tuple[str, ...]
    """What was left out or needs a decision, plain text."""


def merged(base: KnowledgeBase, first: Fault, second: Fault) -> Merged:
    """One draft of two faults, in the place of the first one."""
    lexicon = Readier(base, [first, second]).lexicon
    notes: list[str] = []
    causes = _cause_ids(first, second, lexicon)
    rows = _rows((*first.applies_to, *second.applies_to))
    all_causes, of_causes = _causes(first, second, causes, rows, notes)
    checks = _check_ids(first, second)
    all_checks = _checks(first, second, causes, checks, notes)
    all_causes, all_checks = _within_access(all_causes, all_checks, notes)
    kept = {cause.id for cause in all_causes}
    fault = dataclasses.replace(
        first,
        applies_to=rows,
        codes=_once((*first.codes, *second.codes), lambda row: (row.read.matches or row.read.text, row.unit)),
        symptoms=_once((*first.symptoms, *second.symptoms), str.casefold),
        ride_advice=_advice(first.ride_advice, second.ride_advice),
        cautions=_once((*first.cautions, *second.cautions)),
        causes=tuple(_beside(cause, kept) for cause in all_causes),
        checks=tuple(each for check in all_checks if (each := _aimed(check, kept)) is not None),
        sources=_sources(first, second, of_causes, kept),
        related=_others((*first.related, *second.related), first, second),
        distinct_from=tuple(
            row
            for row in _once((*first.distinct_from, *second.distinct_from), lambda row: row.fault)
            if row.fault not in {first.id, second.id}
        ),
        reviewed=None,
        formerly=_once((*first.formerly, *second.formerly, second.id)),
        withdrawn=None,
        draft=True,
    )
    if first.system != second.system:
        notes.append(f"The systems differ: {first.system} is kept, {second.system} is the other one.")
    cases = tuple(sorted(case.id for case in base.cases.values() if case.fault == second.id))
    return Merged(
        fault=fault,
        causes=causes,
        checks=checks,
        cases=cases,
        named_by=_naming(base, first, second),
        notes=tuple(notes),
    )


def _once(values: Iterable[T], key: Callable[[T], Hashable] = lambda value: value) -> tuple[T, ...]:
    kept: dict[Hashable, T] = {}
    for value in values:
        kept.setdefault(key(value), value)
    return tuple(kept.values())


def _rows(rows: Sequence[AppliesTo]) -> tuple[AppliesTo, ...]:
    """Rows that differ in their years only become one, where the years touch."""
    groups: dict[Hashable, list[AppliesTo]] = {}
    for row in rows:
        groups.setdefault((row.model, row.unit, row.only_if, row.note), []).append(row)
    return tuple(
        dataclasses.replace(group[0], years=years)
        for group in groups.values()
        for years in (union(row.years for row in group) if len(group) > 1 else (group[0].years,))
    )


def _advice(first: RideAdvice | None, second: RideAdvice | None) -> RideAdvice | None:
    """The stricter level; both reasons, the stricter one's first."""
    if first is None or second is None:
        return first or second
    strict, mild = sorted((first, second), key=lambda advice: RIDE_LEVELS.index(advice.level))
    reasons = _once(why for why in (strict.why, mild.why) if why)
    return dataclasses.replace(
        strict, why=" ".join(reasons) or None, stop_if=_once((*strict.stop_if, *mild.stop_if), str.casefold)
    )


def _cause_ids(first: Fault, second: Fault, lexicon: Lexicon) -> dict[str, str]:
    """Each cause of the second one: the id of the first one's cause that it is, or a new one."""
    found: dict[str, str] = {}
    taken = {cause.id for cause in first.causes}
    free = list(first.causes)
    for cause in second.causes:
        twin = max(free, key=lambda other: _alike(cause, other, lexicon), default=None)
        if twin is not None and _alike(cause, twin, lexicon) >= _SAME_CAUSE:
            free.remove(twin)
            found[cause.id] = twin.id
        else:
            found[cause.id] = _new(cause.id, taken)
            taken.add(found[cause.id])
    return found


def _alike(left: Cause, right: Cause, lexicon: Lexicon) -> float:
    if left.component != right.component and None not in {left.component, right.component}:
        return 0.0
    one, other = lexicon.bag([left.summary or left.id]), lexicon.bag([right.summary or right.id])
    return lexicon.alike(one, other) if one is not None and other is not None else 0.0


def _new(identity: str, taken: Iterable[str]) -> str:
    known = set(taken)
    return next(
        name for number in range(1, 100) if (name := identity if number == 1 else f"{identity}-{number}") not in known
    )


def _causes(
    first: Fault, second: Fault, ids: Mapping[str, str], rows: tuple[AppliesTo, ...], notes: list[str]
) -> tuple[list[Cause], dict[str, str]]:
    """The first one's causes, then those that only the second one has.

    A cause that only one of them knows is claimed for that one's machines only.
    """
    shared = set(ids.values())
    kept = [cause if cause.id in shared else _claimed(cause, first.applies_to, rows) for cause in first.causes]
    own = {cause.id for cause in first.causes}
    added = [
        dataclasses.replace(
            _claimed(cause, second.applies_to, rows),
            id=ids[cause.id],
            often_with=tuple(ids.get(each, each) for each in cause.often_with),
        )
        for cause in second.causes
        if ids[cause.id] not in own
    ]
    notes += [
        f'Cause "{cause.id}" of {second.id} is left out: an entry has {_MOST} at most.'
        for cause in [*kept, *added][_MOST:]
    ]
    found = [*kept, *added][:_MOST]
    shares = {cause.share is None for cause in found}
    if len(shares) > 1:
        notes.append("Shares are left out, since only one of the two gives them.")
        found = [dataclasses.replace(cause, share=None) for cause in found]
    return found, dict(ids)


def _claimed(cause: Cause, own: tuple[AppliesTo, ...], rows: tuple[AppliesTo, ...]) -> Cause:
    if cause.applies_to or _rows(own) == rows or not own:
        return cause
    return dataclasses.replace(cause, applies_to=own)


def _beside(cause: Cause, kept: set[str]) -> Cause:
    return dataclasses.replace(
        cause, often_with=_once(each for each in cause.often_with if each in kept and each != cause.id)
    )


def _check_ids(first: Fault, second: Fault) -> dict[str, str]:
    """Each check of the second one: the id of the first one's check that says the same, or a new one."""
    same = {_doing(check): check.id for check in first.checks}
    taken = {check.id for check in first.checks}
    found: dict[str, str] = {}
    for check in second.checks:
        found[check.id] = same.get(_doing(check)) or _new(check.id, taken)
        taken.add(found[check.id])
    return found


def _doing(check: Check) -> Hashable:
    reading = check.reading
    measured = None if reading is None else (reading.place, reading.when, reading.good, reading.unit)
    return ((check.do or check.id).casefold(), (check.expect or "").casefold(), measured)


def _checks(
    first: Fault, second: Fault, causes: Mapping[str, str], ids: Mapping[str, str], notes: list[str]
) -> list[Check]:
    theirs = [_renamed(check, ids[check.id], causes) for check in second.checks]
    by_id = {check.id: check for check in theirs}
    own = [_joined(check, by_id.pop(check.id, None)) for check in first.checks]
    added = [check for check in theirs if check.id in by_id]
    notes += [
        f'Check "{check.id}" of {second.id} is left out: an entry has {_MOST} at most.'
        for check in [*own, *added][_MOST:]
    ]
    return [*own, *added][:_MOST]


def _renamed(check: Check, identity: str, causes: Mapping[str, str]) -> Check:
    def renamed(ids: Iterable[str]) -> tuple[str, ...]:
        return _once(causes.get(each, each) for each in ids)

    reading = check.reading
    if reading is not None:
        low = renamed(reading.low_points_to)
        high = tuple(each for each in renamed(reading.high_points_to) if each not in low)
        reading = dataclasses.replace(reading, low_points_to=low, high_points_to=high)
    return dataclasses.replace(check, id=identity, points_to=renamed(check.points_to), reading=reading)


def _joined(own: Check, theirs: Check | None) -> Check:
    """The same check in both: it points to the causes of both."""
    if theirs is None:
        return own
    reading = own.reading
    if reading is not None and theirs.reading is not None:
        low = _once((*reading.low_points_to, *theirs.reading.low_points_to))
        high = tuple(
            each for each in _once((*reading.high_points_to, *theirs.reading.high_points_to)) if each not in low
        )
        reading = dataclasses.replace(reading, low_points_to=low, high_points_to=high)
    return dataclasses.replace(own, points_to=_once((*own.points_to, *theirs.points_to)), reading=reading)


def _aimed(check: Check, kept: set[str]) -> Check | None:
    """Without causes that were left out; None where it then points to nothing."""
    reading: Reading | None = check.reading
    if reading is None:
        points = tuple(each for each in check.points_to if each in kept)
        return dataclasses.replace(check, points_to=points) if points or not check.points_to else None
    low = tuple(each for each in reading.low_points_to if each in kept)
    high = tuple(each for each in reading.high_points_to if each in kept)
    if (low, high) == ((), ()) and (reading.low_points_to or reading.high_points_to):
        return None
    return dataclasses.replace(check, reading=dataclasses.replace(reading, low_points_to=low, high_points_to=high))


def _within_access(
    causes: Sequence[Cause], checks: Sequence[Check], notes: list[str]
) -> tuple[list[Cause], list[Check]]:
    """Access jobs are counted over all work of an entry; work that needs one too many is left out, the last first."""
    jobs: dict[str, None] = {}
    kept_causes, kept_checks = [], []
    for cause in causes:
        if _fits(jobs, cause.fix.access if cause.fix is not None else ()):
            kept_causes.append(cause)
        else:
            notes.append(f'Cause "{cause.id}" is left out: an entry takes {_MOST_ACCESS} access jobs at most.')
    for check in checks:
        if _fits(jobs, check.access):
            kept_checks.append(check)
        else:
            notes.append(f'Check "{check.id}" is left out: an entry takes {_MOST_ACCESS} access jobs at most.')
    return kept_causes, kept_checks


def _fits(jobs: dict[str, None], more: Iterable[str]) -> bool:
    together = jobs | dict.fromkeys(more)
    if len(together) > _MOST_ACCESS:
        return False
    jobs.update(together)
    return True


def _sources(first: Fault, second: Fault, causes: Mapping[str, str], kept: set[str]) -> tuple[Source, ...]:
    theirs = (
        dataclasses.replace(source, covers=tuple(causes.get(each, each) for each in source.covers))
        for source in second.sources
    )
    once = _once(
        (*first.sources, *theirs), lambda source: (source.kind, source.title.casefold(), source.number, source.url)
    )
    return tuple(
        dataclasses.replace(source, covers=_once(each for each in source.covers if each in kept)) for source in once
    )


def _others(ids: Iterable[str], first: Fault, second: Fault) -> tuple[str, ...]:
    return tuple(each for each in _once(ids) if each not in {first.id, second.id})


def _naming(base: KnowledgeBase, first: Fault, second: Fault) -> tuple[str, ...]:
    return tuple(
        sorted(
            fault.id
            for fault in base.faults.values()
            if fault.id not in {first.id, second.id}
            and (
                second.id in fault.related
                or any(row.fault == second.id for row in fault.distinct_from)
                or (fault.withdrawn is not None and fault.withdrawn.replaced_by == second.id)
            )
        )
    )
