"""KB511: what looks like a number plate."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.personal import plate
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import WITHOUT_LINKS, personal

_WHAT = "What looks like a number plate"
_HINT = "Take it out. If it is none, write it in another way, or accept the finding."


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Plate-like texts in texts and pages."""
    return personal(base, WITHOUT_LINKS, plate.may_hold, plate.find, (_WHAT, _HINT))


RULE = Rule(
    code="KB511",
    title="Number plate",
    severity="warning",
    what=(
        "What has the shape of a German, British, French, Italian or Dutch plate, or follows a word such as "
        "`registration`."
    ),
    why="A plate leads to a person.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Report on AB12 CDE"',
        good='title: "Member report"',
    ),
    check=check,
)
