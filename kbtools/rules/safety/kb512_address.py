"""KB512: what looks like a street address."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.personal import address
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import WITHOUT_LINKS, Sought, personal

_SOUGHT = Sought(
    what="What looks like a street address",
    hint="Take it out; a region is near enough.",
    may_hold=address.may_hold,
    find=address.find,
    kinds=WITHOUT_LINKS | {"comment"},
)


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Street addresses in texts, comments and pages."""
    return personal(base, _SOUGHT)


RULE = Rule(
    code="KB512",
    title="Street address",
    severity="warning",
    what=(
        "A word for a street in one of several languages with a name and a house number, a house with a name, a post "
        "box, or a post code beside a town."
    ),
    why="An address leads to a person, and tells where a motorcycle stands.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Report from 12 Mill Lane"',
        good='title: "Report from the coast"',
    ),
    alone="any day",
    check=check,
)
