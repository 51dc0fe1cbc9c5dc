"""KB517: position on a map."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.personal import position
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import LINKS, WITHOUT_LINKS, Sought, personal

_SOUGHT = Sought(
    what="A position",
    hint="Take it out; a region is near enough.",
    may_hold=position.may_hold,
    find=position.find,
    kinds=WITHOUT_LINKS | LINKS | {"comment"},
)


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Positions in texts, links, comments and pages."""
    return personal(base, _SOUGHT)


RULE = Rule(
    code="KB517",
    title="Position",
    severity="error",
    what=(
        "A pair of degrees that is exact to a few hundred metres (decimals, minutes and seconds, `geo:`, a link to a "
        "map with degrees in it), and codes of places. A single angle is none."
    ),
    why="It leads to a person, and tells where a motorcycle stands.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Parked at 52.5200, 13.4050"',
        good='title: "Parked by the sea"',
    ),
    alone="any day",
    check=check,
)
