"""KB507: character that is not seen."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import EVERYWHERE, breach_at, suspects
from kbtools.text.markup import turns, unseen, unseen_name


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Invisible and direction-changing characters in texts, links and pages; of an entry's text the first."""
    for writing, index in suspects(base, EVERYWHERE, _may_hold):
        for piece in unseen(writing.texts[index]):
            name = unseen_name(piece.text)
            does = "changes the direction of what follows" if turns(piece.text) else "is not seen"
            message = f"The character U+{ord(piece.text):04X} ({name}) stands here and {does}."
            hint = (
                "Delete it; it often comes along with a paste. Write the words around it again if you cannot find it."
            )
            yield breach_at(writing, index, piece.start, message, hint)
            if writing.kind != "page":
                break


def _may_hold(text: str) -> bool:
    # Controls are not printable, but neither is the line end between two texts.
    return not text.isascii() or not text.replace("\n", " ").isprintable()


RULE = Rule(
    code="KB507",
    title="Character that is not seen",
    severity="error",
    what=(
        "Direction marks, zero-width characters, soft hyphens, fillers, tags and controls in a text, a link or a page. "
        "Joiners where the script joins (Persian, Hindi and others), and selectors behind symbols, are let be."
    ),
    why="With them a text reads as another one than it is, a word is not found, and a link leads elsewhere.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="Pull the plug and look for green terminals.",
        bad='"Pull the plug and look\\u202E for green terminals."',
        good="Pull the plug and look for green terminals.",
    ),
    alone="any day",
    check=check,
)
