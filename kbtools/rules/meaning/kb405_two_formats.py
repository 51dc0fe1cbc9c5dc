"""KB405: code that fits two formats."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.codes import all_codes
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Codes that may be written in more than one of the club's notations."""
    names = {} if base.club is None else {each.id: each.name for each in base.club.code_formats}
    for place in all_codes(base):
        if place.read.ambiguous:
            fitting = ", ".join(short(names.get(each.format, each.format)) for each in place.read.matches)
            message = f'"{short(place.read.text)}" fits more than one code format: {fitting}.'
            hint = "Write it as one of them alone has it, or narrow a pattern in club.yml."
            yield Breach(path=place.path, pointer=place.pointer, message=message, hint=hint)


RULE = Rule(
    code="KB405",
    title="Code that fits two formats",
    severity="error",
    what="A code, in a fault or a case, that may be written in more than one notation of `code_formats` in club.yml.",
    why="Two codes that mean different things would share one page, and it cannot be told which one the entry means.",
    sample=Sample(
        path="club.yml",
        instead_of="  - {id: flash, name: Lamp flash code,",
        bad='  - {id: own, name: Own code, pattern: "P05[0-9]{2}"}\n  - {id: flash, name: Lamp flash code,',
        good='  - {id: own, name: Own code, pattern: "E05[0-9]{2}"}\n  - {id: flash, name: Lamp flash code,',
    ),
    alone="any day",
    check=check,
)
