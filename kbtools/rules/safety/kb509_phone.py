"""KB509: telephone number."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.personal import phone
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import Sought, personal


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Telephone numbers in texts, comments, names and pages."""
    countries = base.club.phone_countries if base.club is not None else ()
    sought = Sought(
        what="A telephone number",
        hint="Take it out. If it is another number, write in front of it what it is: `part no.`, `frame numbers`.",
        may_hold=phone.may_hold,
        find=lambda text: phone.find(text, countries),
        may_hold_in_id=lambda text: phone.may_hold_in_id(text, countries),
    )
    return personal(base, sought)


RULE = Rule(
    code="KB509",
    title="Telephone number",
    severity="error",
    what=(
        "What has the shape of a telephone number (with + or 00, with a trunk 0 and groups, in the three groups "
        "of North America), stands beside a word such as `Tel.`, or is a number of one of the club's "
        "`phone_countries`; unless a word in front names another kind of number or a unit follows."
    ),
    why="A case must not lead to a person, and what is published once is copied for ever.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Report, call 01632 960123"',
        good='title: "Report on part no. 01632 960123"',
    ),
    alone="any day",
    check=check,
)
