"""KB506: link with an unsafe scheme."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import WITHOUT_LINKS, breach_at, suspects
from kbtools.text.markup import unsafe_links


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Links in texts and pages that lead neither to the web nor to a mailbox or telephone."""
    for writing, index in suspects(base, WITHOUT_LINKS, _may_hold):
        for piece, scheme in unsafe_links(writing.texts[index]):
            message = f"A link with the scheme `{scheme}:` stands here."
            hint = "Link to a page of the web, https://…, or write the words without a link."
            yield breach_at(writing, index, piece.start, message, hint)
            if writing.kind != "page":
                break


def _may_hold(text: str) -> bool:
    return "](" in text or "]:" in text or "<" in text


RULE = Rule(
    code="KB506",
    title="Link with an unsafe scheme",
    severity="error",
    what=(
        "A link, an image, a reference or an address between angle brackets whose scheme is not http, https, mailto or "
        "tel, such as `javascript:`, `data:`, `vbscript:` and `file:`, also where entities, blanks or unseen "
        "characters hide it. The fields for links take web addresses only by their shape."
    ),
    why="Such a link runs something on the reader's device, or opens files of it.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="Pull the plug and look for green terminals.",
        bad='"Pull the plug, [as here](javascript:alert(1))."',
        good='"Pull the plug, [as here](https://texts.example/plug)."',
    ),
    alone="any day",
    check=check,
)
