"""KB513: what looks like the name of a person."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.personal import name
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import WITHOUT_LINKS, personal

_WHAT = "What looks like the name of a person"
_HINT = "Take it out; write a role instead: owner, mechanic-2."


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Names in texts and pages, and in the place of a reviewer's role."""
    yield from personal(base, WITHOUT_LINKS, name.may_hold, name.find, (_WHAT, _HINT))
    for fault in faults(base):
        if fault.reviewed is not None:
            for role, key in ((fault.reviewed.by, "by"), (fault.reviewed.second or "", "second")):
                if name.is_person(role) and not any(name.find(role)):
                    message = f"`{key}` looks like the name of a person."
                    yield Breach(path=fault.path, pointer=f"{fault.reviewed.at}/{key}", message=message, hint=_HINT)


RULE = Rule(
    code="KB513",
    title="Name of a person",
    severity="warning",
    what=(
        "Capitalised words behind `Owner:`, `reported by` and the like, or behind a form of address, in several "
        "languages; and two or three of them in the place of a reviewer's role."
    ),
    why="A case must not lead to a person.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Owner: Anna Beispiel"',
        good='title: "Owner: first report"',
    ),
    check=check,
)
