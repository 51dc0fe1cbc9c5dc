"""KB512: what looks like a street address."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.personal import address
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import WITHOUT_LINKS, personal

_WHAT = "What looks like a street address"
_HINT = "Take it out; a region is near enough."


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Street addresses in texts and pages."""
    return personal(base, WITHOUT_LINKS, address.may_hold, address.find, (_WHAT, _HINT))


RULE = Rule(
    code="KB512",
    title="Street address",
    severity="warning",
    what=("A word for a street in one of several languages with a name and a house number, or a post box."),
    why="An address leads to a person, and tells where a motorcycle stands.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Report from 12 Mill Lane"',
        good='title: "Report from the coast"',
    ),
    check=check,
)
