"""KB442: text that is still to be written."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator

from kbtools.index.entries import fault_at
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample

_MARK = re.compile(r"\b(TODO|FIXME|TBD|TBC|XXX)\b|^\s*(\?{2,}|\.{3}|…|lorem ipsum.*)\s*$", re.MULTILINE)
"""Capitals alone: such words are signs of their own, and no text has them otherwise."""


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Texts with a sign that something is still to be written; a draft may have them."""
    entries = fault_at(base)
    for writing in base.writings:
        entry = entries.get(writing.path)
        if writing.kind not in {"words", "page"} or (entry is not None and entry.draft):
            continue
        for index, text in enumerate(writing.texts):
            found = _MARK.search(text)
            if found is None:
                continue
            sign = (found[1] or found[2]).strip()
            yield Breach(
                path=writing.path,
                pointer=writing.pointers[index],
                message=f'"{sign[:20]}" stands here: something is still to be written.',
                hint="Write it. While it is not known, `draft: true` keeps the entry off the site.",
                piece="" if writing.starts else sign,
                index=writing.starts[index] + found.start() if writing.starts else None,
            )


RULE = Rule(
    code="KB442",
    title="Still to be written",
    severity="error",
    what="TODO, FIXME, TBD, ??? and the like in a text that is published. A draft may have them.",
    why="The rider would read it in the place of advice.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="why: A flat battery stops the engine.",
        bad="why: TODO",
        good="why: A flat battery stops the engine.",
    ),
    alone="any day",
    check=check,
)
