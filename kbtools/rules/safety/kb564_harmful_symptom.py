"""KB564: no restriction for a fault whose symptoms name brakes, steering, petrol or smoke."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import living
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.work_texts import asked_for, breach


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Symptoms of faults without restriction that name what hurts."""
    levels = {fault.path: fault.ride_level for fault in living(base).values()}
    for asked in asked_for(base).get("harmful-symptom", ()):
        if asked.where.part == "symptom" and levels[asked.where.path] == "no-restriction":
            hint = "Advise ride-with-care at least and say in `why` what to mind, or word the symptom more exactly."
            yield breach(asked, "with such a symptom `no-restriction` promises too much.", hint)


_LEVEL = "ride_advice: {level: no-restriction, why: The drops dry within a day.}"

RULE = Rule(
    code="KB564",
    title="No restriction with a symptom that hurts",
    severity="error",
    what=(
        "An entry whose ride advice is no-restriction and one of whose symptoms tells of brakes, anti-lock control, "
        "steering, leaking petrol, smoke or burning."
    ),
    why="Who finds his symptom there rides off without a second thought, with a worse fault of the same look.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="ride_advice: {level: ride-to-workshop, why: A flat battery stops the engine.}",
        bad=f"symptoms: [Smells of petrol after a ride]\n{_LEVEL}",
        good=f"symptoms: [Water drips from the plug]\n{_LEVEL}",
    ),
    alone="any day",
    check=check,
)
