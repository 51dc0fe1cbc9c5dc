"""One draft of two faults: what both say, each thing once, ids unique and references adjusted.

It is meant to be edited. Nothing is made up and nothing is lost: where the two cannot both be kept, the first one's
word stands and a note says what was left out.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from kbtools.index.cases import cases_naming
from kbtools.index.references import faults_naming
from kbtools.merging.advice import advice_of_both, joined_code, no_milder
from kbtools.merging.causes import causes_of_both
from kbtools.merging.checks import aimed, checks_of_both
from kbtools.merging.each_once import each_once
from kbtools.merging.left_out import left_out
from kbtools.merging.machines import machines_of_both, same_machines
from kbtools.merging.renaming import cause_ids, check_ids, renamed
from kbtools.merging.room import Room
from kbtools.merging.rows import filled, rows_of_both
from kbtools.merging.sources import covering, sources_of_both
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import AppliesTo, Cause, DistinctFrom, Fault
from kbtools.similarity.features import Readier


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
    """What was left out, plain text, hostile; causes and checks by their ids in the draft."""


def merged(base: KnowledgeBase, first: Fault, second: Fault) -> Merged:
    """One draft of two faults, in the place of the first one."""
    causes, checks = cause_ids(first, second, Readier(base, [first, second])), check_ids(first, second)
    theirs = renamed(second, causes, checks)
    room = Room()
    draft = _draft(first, theirs, room)
    return Merged(
        fault=draft,
        causes=causes,
        checks=checks,
        cases=tuple(sorted(case.id for case in cases_naming(base).get(second.id, ()))),
        named_by=tuple(each for each in faults_naming(base, second.id) if each not in {first.id, second.id}),
        notes=(
            *_beforehand(first, theirs, draft),
            *left_out(first, draft, room.why),
            *left_out(theirs, draft, room.why),
        ),
    )


def _draft(first: Fault, theirs: Fault, room: Room) -> Fault:
    machines = machines_of_both(*first.applies_to, *theirs.applies_to)
    causes = room.for_work(causes_of_both(first, theirs))
    there = {cause.id for cause in causes}
    checks = room.for_work(room.narrowed(checks_of_both(first, theirs), aimed, there))
    sources = room.narrowed(sources_of_both(first, theirs), covering, there)
    advice = advice_of_both(first.ride_advice, theirs.ride_advice)
    return dataclasses.replace(
        first,
        system=first.system or theirs.system,
        applies_to=machines,
        codes=tuple(no_milder(row, advice) for row in rows_of_both(first.codes, theirs.codes, joined_code)),
        symptoms=each_once((*first.symptoms, *theirs.symptoms), str.casefold),
        does_not_start=first.does_not_start or theirs.does_not_start,
        ride_advice=advice,
        cautions=each_once((*first.cautions, *theirs.cautions)),
        causes=_shared(tuple(no_milder(_fitted(cause, machines, there), advice) for cause in causes)),
        checks=checks,
        sources=tuple(
            dataclasses.replace(source, applies_to=_unless_all(source.applies_to, machines)) for source in sources
        ),
        related=tuple(
            each for each in each_once((*first.related, *theirs.related)) if each not in {first.id, theirs.id}
        ),
        distinct_from=_apart(first, theirs),
        reviewed=None,
        formerly=each_once((*first.formerly, *theirs.formerly, theirs.id)),
        withdrawn=None,
        # In the place of a published entry a draft would take its page away; without a review it does not check.
        draft=first.draft,
    )


def _fitted(cause: Cause, machines: tuple[AppliesTo, ...], there: set[str]) -> Cause:
    """The cause in its draft: without rows if it is known on all machines, beside causes that are there."""
    return dataclasses.replace(
        cause,
        applies_to=_unless_all(cause.applies_to, machines),
        often_with=tuple(each for each in cause.often_with if each in there and each != cause.id),
    )


def _unless_all(rows: tuple[AppliesTo, ...], machines: tuple[AppliesTo, ...]) -> tuple[AppliesTo, ...]:
    return () if same_machines(rows, machines) else rows


def _shared(causes: tuple[Cause, ...]) -> tuple[Cause, ...]:
    """Shares are for all causes or for none."""
    if all(cause.share is not None for cause in causes):
        return causes
    return tuple(dataclasses.replace(cause, share=None) for cause in causes)


def _apart(first: Fault, theirs: Fault) -> tuple[DistinctFrom, ...]:
    rows = rows_of_both(first.distinct_from, theirs.distinct_from, filled)
    return tuple(row for row in rows if row.fault not in {first.id, theirs.id})


def _beforehand(first: Fault, theirs: Fault, draft: Fault) -> Iterator[str]:
    """What explains the notes that follow."""
    for each in (first, theirs):
        if each.damaged:
            yield f"Not all of {each.path} can be read, so the draft may lack something: kbtools check says what."
    told = any(cause.share is not None for cause in (*first.causes, *theirs.causes))
    if told and all(cause.share is None for cause in draft.causes):
        yield "Shares are left out, since only some of the causes have one."
