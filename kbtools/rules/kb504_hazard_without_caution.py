"""KB504: work on fuel or battery without its caution."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Cause, Check, Fault, Fix
from kbtools.rules.hazards import Hazard, asked_by, hazards, jobs, works_on
from kbtools.rules.rule import Found, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Found]:
    """Fixes and checks on fuel or battery, in published faults, whose caution neither they nor the fault name."""
    if base.unsure & {"caution", "access job", "component"}:
        return
    dangers = [each for each in hazards(base) if each.cautions]
    for fault in base.faults.values():
        if not fault.published or not dangers or not _cautions_known(base, fault, fault.cautions, "/cautions"):
            continue
        work: list[tuple[Fix | Check, Cause | None]] = [(each.fix, each) for each in fault.causes if each.fix]
        work += [(each, None) for each in fault.checks]
        for each, cause in work:
            if _cautions_known(base, fault, each.cautions, f"{each.at}/cautions"):
                named = {*fault.cautions, *each.cautions}
                yield from _at_job(base, fault, each, dangers, named) or _at_component(
                    base, fault, cause, dangers, named
                )


def _cautions_known(base: KnowledgeBase, fault: Fault, ids: tuple[str, ...], pointer: str) -> bool:
    """Whether the list could be read and each caution is there: a misspelt one has its own finding."""
    return fault.intact(pointer) and all(each in base.cautions for each in ids)


def _at_job(
    base: KnowledgeBase, fault: Fault, work: Fix | Check, dangers: list[Hazard], named: set[str]
) -> list[Found]:
    for job in jobs(base, work.access):
        for hazard in dangers:
            missing = [each for each in asked_by(job, hazard) if each not in named]
            if missing:
                message = f'"{job.name}" has the caution "{missing[0]}", and neither this work nor the entry names it.'
                return [_found(fault, work, message, missing[0])]
    return []


def _at_component(
    base: KnowledgeBase, fault: Fault, cause: Cause | None, dangers: list[Hazard], named: set[str]
) -> list[Found]:
    component = base.components.get(cause.component or "") if cause is not None else None
    if component is None or cause is None or cause.fix is None:
        return []
    for hazard in dangers:
        if works_on(component, hazard) and hazard.cautions.isdisjoint(named):
            message = f'"{component.name}" is work on {hazard.name}, and neither this fix nor the entry warns of it.'
            return [_found(fault, cause.fix, message, min(hazard.cautions))]
    return []


def _found(fault: Fault, work: Fix | Check, message: str, caution: str) -> Found:
    hint = f"Add it where the hands are: `cautions: [{caution}]`."
    return Found(path=fault.path, pointer=f"{work.at}/cautions", message=message, hint=hint)


RULE = Rule(
    code="KB504",
    title="Work on fuel or battery without its caution",
    severity="error",
    what=(
        "In a published entry: a fix or a check with an access job (or one that this needs) to which `systems.yml` gives "
        "a caution about fuel or the battery, or a fix of a component that is one by its name and no electrical part, "
        "where neither the work nor the entry names that caution (for a component: any about it). What a caution is "
        "about is told by its id, else by its text; words of `words.yml` count as equals."
    ),
    why="Petrol vapour and battery gas go off at a spark that nobody expects who has not been told.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="cautions: [battery-gas]\n",
        bad="",
        good="cautions: [battery-gas]\n",
    ),
    check=check,
)
