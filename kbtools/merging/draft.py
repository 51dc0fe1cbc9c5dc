"""One draft of two faults: what both say, each thing once, ids unique and references adjusted.

It is meant to be edited. Nothing is made up: where the two cannot both be kept, the first one's word stands and a note
says what was left out.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from kbtools.index.cases import cases_naming
from kbtools.index.references import faults_naming
from kbtools.merging.checks import MOST, aimed, check_ids, checks_of_both
from kbtools.merging.unions import new_id, once
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import RIDE_LEVELS, AppliesTo, Cause, Check, Fault, RideAdvice, Source
from kbtools.model.years import union
from kbtools.similarity.features import Readier
from kbtools.similarity.lexicon import Lexicon

_SAME_CAUSE: Final = 0.55
"""Likeness of the summaries of two causes of one component from which they are one."""
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
    checks = check_ids(first, second)
    all_checks = checks_of_both(first, second, causes, checks, notes)
    all_causes, all_checks = _within_access(all_causes, all_checks, notes)
    kept = {cause.id for cause in all_causes}
    fault = dataclasses.replace(
        first,
        applies_to=rows,
        codes=once((*first.codes, *second.codes), lambda row: (row.read.matches or row.read.text, row.unit)),
        symptoms=once((*first.symptoms, *second.symptoms), str.casefold),
        ride_advice=_advice(first.ride_advice, second.ride_advice),
        cautions=once((*first.cautions, *second.cautions)),
        causes=tuple(_beside(cause, kept) for cause in all_causes),
        checks=tuple(each for check in all_checks if (each := aimed(check, kept)) is not None),
        sources=_sources(first, second, of_causes, kept),
        related=_others((*first.related, *second.related), first, second),
        distinct_from=tuple(
            row
            for row in once((*first.distinct_from, *second.distinct_from), lambda row: row.fault)
            if row.fault not in {first.id, second.id}
        ),
        reviewed=None,
        formerly=once((*first.formerly, *second.formerly, second.id)),
        withdrawn=None,
        draft=True,
    )
    if first.system != second.system:
        notes.append(f"The systems differ: {first.system} is kept, {second.system} is the other one.")
    cases = tuple(sorted(case.id for case in cases_naming(base).get(second.id, ())))
    return Merged(
        fault=fault,
        causes=causes,
        checks=checks,
        cases=cases,
        named_by=_others(faults_naming(base, second.id), first, second),
        notes=tuple(notes),
    )


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
    reasons = once(why for why in (strict.why, mild.why) if why)
    return dataclasses.replace(
        strict, why=" ".join(reasons) or None, stop_if=once((*strict.stop_if, *mild.stop_if), str.casefold)
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
            found[cause.id] = new_id(cause.id, taken)
            taken.add(found[cause.id])
    return found


def _alike(left: Cause, right: Cause, lexicon: Lexicon) -> float:
    if left.component != right.component and None not in {left.component, right.component}:
        return 0.0
    one, other = lexicon.bag([left.summary or left.id]), lexicon.bag([right.summary or right.id])
    return lexicon.alike(one, other) if one is not None and other is not None else 0.0


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
        f'Cause "{cause.id}" of {second.id} is left out: an entry has {MOST} at most.'
        for cause in [*kept, *added][MOST:]
    ]
    found = [*kept, *added][:MOST]
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
        cause, often_with=once(each for each in cause.often_with if each in kept and each != cause.id)
    )


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
    each_once = once(
        (*first.sources, *theirs), lambda source: (source.kind, source.title.casefold(), source.number, source.url)
    )
    return tuple(
        dataclasses.replace(source, covers=once(each for each in source.covers if each in kept)) for source in each_once
    )


def _others(ids: Iterable[str], first: Fault, second: Fault) -> tuple[str, ...]:
    return tuple(each for each in once(ids) if each not in {first.id, second.id})
