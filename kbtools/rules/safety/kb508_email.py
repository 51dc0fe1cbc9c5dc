"""KB508: e-mail address."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.personal import email
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import EVERYWHERE, personal

_WHAT = "An e-mail address"
_HINT = "Take it out; say `Member report`, and keep the address where only the curators see it."


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """E-mail addresses in texts, links and pages."""
    return personal(base, EVERYWHERE, email.may_hold, email.find, (_WHAT, _HINT))


RULE = Rule(
    code="KB508",
    title="E-mail address",
    severity="error",
    what=(
        "An e-mail address in any text, link or page, also one written around the corner, as `name (at) host "
        "(dot) org`."
    ),
    why="A case must not lead to a person, and what is published once is copied for ever.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Report by finch@mail.example"',
        good='title: "Member report"',
    ),
    check=check,
)
