"""KB504: work on fuel or battery without its caution."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping

from kbtools.index.entries import published
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Access
from kbtools.model.check import Check
from kbtools.model.fault import Cause, Fault, Fix
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.hazards import Hazard, asked_by_job, hazard_of_component, hazards


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Fixes and checks on fuel or battery, in published faults, whose caution neither they nor the fault name."""
    dangers = [each for each in hazards(base) if each.cautions]
    if base.unsure & {"caution", "access job", "component"} or not dangers:
        return
    asked = asked_by_job(base, dangers)
    components = hazard_of_component(base, dangers)
    for fault in published(base).values():
        if _known(base, fault, fault.cautions, "/cautions"):
            for cause in fault.causes:
                if cause.fix is not None and _known(base, fault, cause.fix.cautions, f"{cause.fix.at}/cautions"):
                    yield from _at_job(fault, cause.fix, asked) or _at_component(
                        base, fault, cause, cause.fix, components.get(cause.component or "")
                    )
            for each in fault.checks:
                if _known(base, fault, each.cautions, f"{each.at}/cautions"):
                    yield from _at_job(fault, each, asked)


def _known(base: KnowledgeBase, fault: Fault, ids: tuple[str, ...], pointer: str) -> bool:
    """Whether the list could be read and each caution is there: a misspelt one has its own finding."""
    return (not fault.damaged or fault.intact(pointer)) and all(each in base.cautions for each in ids)


def _at_job(fault: Fault, work: Fix | Check, asked: Mapping[str, tuple[tuple[Access, str], ...]]) -> list[Breach]:
    for identity in work.access:
        for job, caution in asked.get(identity, ()):
            if caution not in work.cautions and caution not in fault.cautions:
                message = f'"{job.name}" has the caution "{caution}", and neither this work nor the entry names it.'
                return [_breach(fault, work, message, caution)]
    return []


def _at_component(base: KnowledgeBase, fault: Fault, cause: Cause, fix: Fix, hazard: Hazard | None) -> list[Breach]:
    if hazard is None or not hazard.cautions.isdisjoint((*fault.cautions, *fix.cautions)):
        return []
    name = base.components[cause.component or ""].name
    message = f'"{name}" is work on {hazard.name}, and neither this fix nor the entry warns of it.'
    return [_breach(fault, fix, message, min(hazard.cautions))]


def _breach(fault: Fault, work: Fix | Check, message: str, caution: str) -> Breach:
    hint = f"Add it where the hands are: `cautions: [{caution}]`."
    return Breach(path=fault.path, pointer=f"{work.at}/cautions", message=message, hint=hint)


RULE = Rule(
    code="KB504",
    title="Work on fuel or battery without its caution",
    severity="error",
    what=(
        "In a published entry: a fix or a check with an access job (or one that this needs) to which "
        "`systems.yml` gives a caution about fuel or the battery, or a fix of a component that is one by its name "
        "and no electrical part, where neither the work nor the entry names that caution (for a component: any "
        "about it). What a caution is about is told by its id, else by its text; words of `words.yml` count as "
        "equals."
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
