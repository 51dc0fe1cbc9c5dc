"""KB514: link to a messenger, telephone or mailbox."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.personal import email, messenger, phone
from kbtools.personal.span import Span
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import LINKS, WITHOUT_LINKS, Sought, personal


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Links to one person in texts, links, comments and pages; not what is found as an address or a number already."""
    countries = base.club.phone_countries if base.club is not None else ()

    def find(text: str) -> Iterator[Span]:
        links = list(messenger.find(text))
        known = [*email.find(text), *phone.find(text, countries)] if links else []
        return (link for link in links if not any(link.start < each.end and each.start < link.end for each in known))

    sought = Sought(
        what="A link to a person's messenger, telephone or mailbox",
        hint="Take it out; link to a page that is public, or say `Member report`.",
        may_hold=messenger.may_hold,
        find=find,
        kinds=WITHOUT_LINKS | LINKS | {"comment"},
    )
    return personal(base, sought)


RULE = Rule(
    code="KB514",
    title="Link to a messenger",
    severity="error",
    what=(
        "An address that opens a chat with one person or a closed group (`wa.me/…`, `t.me/…`), rings or writes "
        "(`tel:`, `sms:`, `mailto:`, `sip:`), also in a field for links."
    ),
    why="Such a link leads to a person as a number or an address does.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Report, wa.me/ostrel0rider"',
        good='title: "Member report"',
    ),
    alone="any day",
    check=check,
)
