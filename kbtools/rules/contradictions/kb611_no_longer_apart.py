"""KB611: told apart, and no longer two."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.model.memory import Memory
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.similarity.apart import no_longer_apart
from kbtools.similarity.why import carried
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date, memory: Memory | None = None) -> Iterator[Breach]:
    """Rows of `distinct_from` about an entry that now says nearly the same."""
    for told in no_longer_apart(base, memory):
        other = told.other
        message = f'"{other.id}" ({short(other.title)}) is told apart here, and the two have become nearly the same.'
        hint = (
            f"Alike in: {carried(told.match.fields)}. kbtools similar --merge {told.fault.id} {other.id} drafts one of "
            "both; or write what makes them two."
        )
        yield Breach(path=told.fault.path, pointer=f"{told.row.at}/fault", message=message, hint=hint)


_TWIN = (
    "title: {title}\nsystem: charging\napplies_to: [{{model: wren-400, years: 2003-2007}}]\n"
    "ride_advice: {{level: ride-to-workshop, why: A flat battery stops the engine.}}\n"
    "causes:\n  - id: plug\n    summary: {summary}\n    component: regulator\n"
    "    fix: {{summary: Crimp new terminals., skill: experienced, labour_hours: 0.5}}\n"
    "sources: [{{kind: first-hand, title: Seen on two bikes}}]\n"
    "distinct_from: [{{fault: lamp-flickers, because: That one is about rain.}}]\n"
    "reviewed: {{on: 2026-03-14, by: curator-1}}\n"
)

RULE = Rule(
    code="KB611",
    title="Told apart, and no longer two",
    severity="warning",
    what="An entry under `distinct_from` that has become nearly the same as this one, word for word.",
    why="The row keeps a pair quiet that has become one entry, and the one who reads both learns no difference.",
    sample=Sample(
        path="faults/charging/lamp-in-the-wet.yml",
        instead_of="",
        bad=_TWIN.format(title="Charge lamp flickers in the rain", summary="Corroded plug at the regulator"),
        good=_TWIN.format(title="Charge lamp flickers on rough roads", summary="Loose screw at the terminal"),
    ),
    check=check,
    check_with=check,
)
