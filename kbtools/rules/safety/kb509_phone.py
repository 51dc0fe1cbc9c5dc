"""KB509: telephone number."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.personal import phone
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import WITHOUT_LINKS, personal

_WHAT = "A telephone number"
_HINT = "Take it out. If it is another number, write in front of it what it is: `part no.`, `frame numbers`."


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Telephone numbers in texts and pages."""
    return personal(base, WITHOUT_LINKS, phone.may_hold, phone.find, (_WHAT, _HINT))


RULE = Rule(
    code="KB509",
    title="Telephone number",
    severity="error",
    what=(
        "What has the shape of a telephone number (with + or 00, with a trunk 0 and groups, in the three groups "
        "of North America), or follows a word such as `Tel.`, unless a word in front names another kind of number "
        "or a unit follows."
    ),
    why="A case must not lead to a person, and what is published once is copied for ever.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Report, call 01632 960123"',
        good='title: "Report on part no. 01632 960123"',
    ),
    check=check,
)
