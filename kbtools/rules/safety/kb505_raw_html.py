"""KB505: raw HTML."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import WITHOUT_LINKS, breach_at, suspects
from kbtools.text.markup import raw_html
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Tags, comments and declarations in texts and pages; of an entry's text and of a page's line the first."""
    for writing, index in suspects(base, WITHOUT_LINKS, lambda text: "<" in text):
        text, line = writing.texts[index], -1
        for piece in raw_html(text):
            start = text.rfind("\n", 0, piece.start) if writing.kind == "page" else 0
            if start != line or piece.start == 0:
                line = start
                message = f'Raw HTML stands here: "{short(piece.text)}".'
                hint = "Say it in Markdown; to show it as it is, put it between backticks."
                yield breach_at(writing, index, piece.start, message, hint)
            if writing.kind != "page":
                break


RULE = Rule(
    code="KB505",
    title="Raw HTML",
    severity="error",
    what=(
        "A tag, comment, declaration or instruction of HTML in a text or a hand-written page, outside code. A "
        "comparison such as `below <5 V` is none, and neither is an address between angle brackets."
    ),
    why="It is shown as written, or dropped: never as its author meant it; and it is how scripts are smuggled in.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="Pull the plug and look for green terminals.",
        bad="Pull the plug and look for <b>green</b> terminals.",
        good="Pull the plug and look for **green** terminals.",
    ),
    alone="any day",
    check=check,
)
