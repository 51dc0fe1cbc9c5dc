"""KB321: a link of a hand-written page whose address is none."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import breach_at, suspects
from kbtools.text.markup import no_addresses
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Links and pictures of pages, with an address that nobody can take apart."""
    for writing, index in suspects(base, frozenset({"page"}), lambda text: "//" in text or "&" in text):
        for piece in no_addresses(writing.texts[index]):
            message = f'The link to "{short(piece.text)}" has an address that is none.'
            hint = "Write it as a browser shows it, https://… and so on; square brackets do not belong into a host."
            yield breach_at(writing, index, piece.start, message, hint)


RULE = Rule(
    code="KB321",
    title="Link to what is no address",
    severity="error",
    what="A link or a picture on a hand-written page with an address that cannot be taken apart, such as `http://[`.",
    why="Nobody can follow the link, and the site cannot be built with it.",
    sample=Sample(
        path="pages/meeting.md",
        instead_of="",
        bad="# Meeting\n\nWe meet [by the lake](https://[lake.example/).\n",
        good="# Meeting\n\nWe meet [by the lake](https://lake.example/).\n",
    ),
    alone="any day",
    check=check,
)
