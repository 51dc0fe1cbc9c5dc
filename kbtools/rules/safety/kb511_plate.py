"""KB511: what looks like a number plate."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.personal import plate
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import Sought, as_signs, personal

_SOUGHT = Sought(
    what="What looks like a number plate",
    hint="Take it out. If it is none, write it in another way, or accept the finding.",
    may_hold=plate.may_hold,
    find=plate.find,
    spelt=as_signs,
)


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Plate-like texts in texts, comments, names and pages."""
    return personal(base, _SOUGHT)


RULE = Rule(
    code="KB511",
    title="Number plate",
    severity="warning",
    what=(
        "What has the shape of a plate of one of some thirty countries that hardly anything else has, or of any "
        "plate behind a word such as `registration` or beside words of a machine that somebody saw."
    ),
    why="A plate leads to a person.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Report on AB12 CDE"',
        good='title: "Member report"',
    ),
    alone="any day",
    check=check,
)
