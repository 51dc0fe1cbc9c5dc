"""KB518: what looks like a name on a forum."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.personal import handle
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import LINKS, WITHOUT_LINKS, Sought, personal

_SOUGHT = Sought(
    what="What looks like a person's name on a forum",
    hint="Take it out; write a role instead: owner, forum member.",
    may_hold=handle.may_hold,
    find=handle.find,
    kinds=WITHOUT_LINKS | LINKS | {"comment"},
)


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Such names in texts, links, comments and pages."""
    return personal(base, _SOUGHT)


RULE = Rule(
    code="KB518",
    title="Name on a forum",
    severity="warning",
    what=(
        "`@name`, `username: name`, `name#1234`, a made-up word with `on the forum` behind it or `posted by` before, "
        "and the page of a member in a web address."
    ),
    why="Under that name a person can be found.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Report by torque_wrench on the forum"',
        good='title: "Report by a member of the forum"',
    ),
    alone="any day",
    check=check,
)
