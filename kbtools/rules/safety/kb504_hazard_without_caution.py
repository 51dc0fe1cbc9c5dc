"""KB504: work on fuel or battery without its caution."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator

from kbtools.index.cautions import cautions_of_check, cautions_of_fix
from kbtools.index.entries import published
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Caution
from kbtools.model.check import Check
from kbtools.model.fault import Fault, Fix
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.hazards import cautions_about, dangers_touched


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Fixes and checks on fuel or battery, in published faults, for which no caution about it holds."""
    if base.unsure & {"caution", "access job", "component", "system"} or not cautions_about(base):
        return
    for fault in published(base).values():
        if not _known(base, fault, fault.cautions, "/cautions"):
            continue
        for cause in fault.causes:
            if cause.fix is not None and _known(base, fault, cause.fix.cautions, f"{cause.fix.at}/cautions"):
                holding = cautions_of_fix(base, fault, cause)
                yield from _of_work(base, fault, cause.fix, cause.component, holding)
        for each in fault.checks:
            if _known(base, fault, each.cautions, f"{each.at}/cautions"):
                yield from _of_work(base, fault, each, None, cautions_of_check(base, fault, each))


def _known(base: KnowledgeBase, fault: Fault, ids: tuple[str, ...], pointer: str) -> bool:
    """Whether the list could be read and each caution is there: a misspelt one has its own finding."""
    return (not fault.damaged or fault.intact(pointer)) and all(each in base.cautions for each in ids)


def _of_work(
    base: KnowledgeBase,
    fault: Fault,
    work: Fix | Check,
    component_id: str | None,
    holding: Iterable[Caution],
) -> Iterator[Breach]:
    """The first danger that the work touches and that no caution holding for it is about."""
    ids = {each.id for each in holding}
    for danger in dangers_touched(base, component_id, work.access):
        about = cautions_about(base)[danger.kind]
        if about.isdisjoint(ids):
            name = danger.row.name
            message = f'"{name}" is work on {danger.kind}, and no caution about it holds here.'
            hint = (
                f'Give "{name}" its caution in systems.yml, where it holds for all that touches it: '
                f"`cautions: [{min(about)}]`. If it is about this work alone, name it here."
            )
            yield Breach(path=fault.path, pointer=f"{work.at}/cautions", message=message, hint=hint)
            return


_PIECE = """\
cautions: [battery-gas]
causes:
  - id: corroded-plug
    summary: Corroded plug at the regulator
    component: regulator
    fix:
      summary: Cut back and crimp new terminals.
      skill: home
      parts: [{name: Terminal kit, price: [8, 20]}]
      labour_hours: [0.5, 1]
      tools: [multimeter]
      access: [seat-off]
"""
_ON_THE_BATTERY = """\
causes:
  - id: corroded-plug
    summary: Corroded clamps
    component: battery
    fix:
      summary: Scrape posts and clamps bright.
      skill: home
      labour_hours: 0.3
"""

RULE = Rule(
    code="KB504",
    title="Work on fuel or battery without its caution",
    severity="error",
    what=(
        "In a published entry: a fix of a component, or a fix or check with an access job (or one that this needs), "
        "that is fuel or the battery by its name and no electrical part, where no caution about it holds: neither the "
        "work's own nor the entry's, nor one that its system, component or access job brings from `systems.yml`. What "
        "a caution is about is told by its `hazard`, else by its id, else by its text; words of `words.yml` count as "
        "equals."
    ),
    why="Petrol vapour and battery gas go off at a spark that nobody expects who has not been told.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of=_PIECE,
        bad=_ON_THE_BATTERY,
        good=f"{_ON_THE_BATTERY}      cautions: [battery-gas]\n",
    ),
    alone="any day",
    check=check,
)
