"""KB611: told apart, and no longer two."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.duplicates.apartness import no_longer_apart
from kbtools.duplicates.told import carried
from kbtools.model.base import KnowledgeBase
from kbtools.rules.meaning import short
from kbtools.rules.rule import Found, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Found]:
    """Rows of `distinct_from` about a withdrawn entry, or about one that now says nearly the same."""
    for told in no_longer_apart(base):
        name = f'"{told.other.id}" ({short(told.other.title)})'
        if told.match is None:
            message = f"{name} is told apart here, and has been withdrawn."
            hint = "Take the row out, or let it name the entry that took its place."
        else:
            message = f"{name} is told apart here, and the two have become nearly the same."
            hint = (
                f"Alike in: {carried(told.match.fields)}. Put them together with kbtools similar --merge "
                f"{told.fault.id} {told.other.id}, or write what makes them two."
            )
        yield Found(path=told.fault.path, pointer=f"{told.row.at}/fault", message=message, hint=hint)


RULE = Rule(
    code="KB611",
    title="Told apart, and no longer two",
    severity="warning",
    what="An entry under `distinct_from` that has been withdrawn, or that has become nearly the same as this one.",
    why="The row keeps a pair quiet that ought to be one entry, and sends readers to a page that is no more.",
    sample=Sample(
        path="faults/charging/battery-flat.yml",
        instead_of="draft: true\n",
        bad="draft: true\ndistinct_from: [{fault: lamp-glows, because: There the lamp only glows.}]\n",
        good="draft: true\ndistinct_from: [{fault: lamp-flickers, because: There it charges too little.}]\n",
    ),
    check=check,
)
