"""KB404: code that fits no format."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.codes import all_codes, formats_known
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Codes that are written in none of the club's notations."""
    if base.club is None or not formats_known(base):
        return
    known = [f"{each.name} ({each.example})" if each.example else each.name for each in base.club.code_formats]
    hint = f"The club knows: {', '.join(short(each) for each in known[:8])}{', …' if len(known) > 8 else ''}."
    for place in all_codes(base):
        if not place.read.matches:
            message = f'"{short(place.read.text)}" fits none of the club\'s code formats.'
            yield Breach(path=place.path, pointer=place.pointer, message=message, hint=hint)


RULE = Rule(
    code="KB404",
    title="Code that fits no format",
    severity="error",
    what="A code, in a fault or a case, that is written in none of the notations of `code_formats` in club.yml.",
    why="Nobody who types the code from the bike would find the entry.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="{code: P0562,",
        bad="{code: P05X2,",
        good="{code: P0562,",
    ),
    alone="any day",
    check=check,
)
