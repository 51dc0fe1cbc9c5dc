"""KB516: number of a payment card."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.personal import card
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import LINKS, NOT_SHOWN, WITHOUT_LINKS, Sought, personal

_SOUGHT = Sought(
    what="The number of a payment card",
    hint="Take it out, and have the card blocked if it is a real one.",
    may_hold=card.may_hold,
    find=card.find,
    kinds=WITHOUT_LINKS | NOT_SHOWN | LINKS,
)


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Card numbers in texts, links, comments, names and pages."""
    return personal(base, _SOUGHT)


RULE = Rule(
    code="KB516",
    title="Payment card",
    severity="error",
    what=(
        "Fourteen to nineteen digits, in one piece or in groups, that begin as the cards of a network do, are as "
        "many as these have, and whose check digit (Luhn, ISO/IEC 7812-1) holds."
    ),
    why="It leads to a person, and serves to take money from one.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        # A number that a network publishes for trying out payments.
        bad='title: "Deposit by 4111 1111 1111 1111"',
        good='title: "Deposit by card"',
    ),
    alone="any day",
    check=check,
)
