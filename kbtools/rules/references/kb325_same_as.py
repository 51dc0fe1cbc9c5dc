"""KB325: same as a cause that is not there."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.references import names, twins
from kbtools.model.base import KnowledgeBase
from kbtools.rules.references.named import missing, missing_fault
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Causes that are said to be the same as one that is not there, or as one of their own entry."""
    known = names(base, "fault")
    for path, cause, same in twins(base):
        fault_id, _, cause_id = same.partition("/")
        other = base.faults.get(fault_id)
        if other is None:
            if "fault" in base.unsure:
                continue
            message, hint = missing_fault(base, fault_id, known)
        elif other.path == path:
            message = "A cause of this entry cannot be the same as another one of it."
            hint = "Name a cause of another entry, or make one cause of the two."
        elif other.ids_known("causes") and other.cause(cause_id) is None:
            there = {each.id: (each.summary or each.id,) for each in other.causes}
            message, hint = missing("cause", cause_id, there, f"in {other.id}")
        else:
            continue
        yield Breach(path=path, pointer=f"{cause.at}/same_as", message=message, hint=hint)


_PIECE = "    component: regulator\n    fix:\n"

RULE = Rule(
    code="KB325",
    title="Same as a cause that is not there",
    severity="error",
    what="A cause whose `same_as` names a fault or a cause that is not there, or one of its own entry.",
    why="The plan for several codes would take one broken part for two.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of=_PIECE,
        bad="    component: regulator\n    same_as: lamp-glows/leaking-diodes\n    fix:\n",
        good="    component: regulator\n    same_as: lamp-glows/leaking-diode\n    fix:\n",
    ),
    check=check,
)
