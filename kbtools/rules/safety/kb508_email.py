"""KB508: e-mail address."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.personal import email
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import LINKS, NOT_SHOWN, WITHOUT_LINKS, Sought, personal

_SOUGHT = Sought(
    what="An e-mail address",
    hint="Take it out; say `Member report`, and keep the address where only the curators see it.",
    may_hold=email.may_hold,
    find=email.find,
    kinds=WITHOUT_LINKS | NOT_SHOWN | LINKS,
)


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """E-mail addresses in texts, links, comments, names and pages."""
    return personal(base, _SOUGHT)


RULE = Rule(
    code="KB508",
    title="E-mail address",
    severity="error",
    what=(
        "An e-mail address in any text, link, comment, name of a file or page, also one that is spaced out or written "
        "around the corner, as `name (at) host (dot) org` and `name at host dot org`."
    ),
    why="A case must not lead to a person, and what is published once is copied for ever.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Report by finch at mail dot example"',
        good='title: "Member report"',
    ),
    alone="any day",
    check=check,
)
