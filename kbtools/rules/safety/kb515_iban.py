"""KB515: bank account number."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.personal import iban
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import LINKS, NOT_SHOWN, WITHOUT_LINKS, Sought, personal

_SOUGHT = Sought(
    what="A bank account number",
    hint="Take it out; tell it to those who pay.",
    may_hold=iban.may_hold,
    find=iban.find,
    kinds=WITHOUT_LINKS | NOT_SHOWN | LINKS,
)


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Account numbers in texts, links, comments, names and pages."""
    return personal(base, _SOUGHT)


RULE = Rule(
    code="KB515",
    title="Bank account number",
    severity="error",
    what=(
        "An international bank account number (IBAN, ISO 13616), in one piece or in groups, whose length is that of "
        "its country and whose check digits hold."
    ),
    why="It leads to a person, and serves to take money from one.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        # An example of the IBAN registry.
        bad='title: "Loan of the tool, GB29 NWBK 6016 1331 9268 19"',
        good='title: "Loan of the tool"',
    ),
    alone="any day",
    check=check,
)
