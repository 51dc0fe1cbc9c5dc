"""KB720: files of the older format."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """A club that does not say which format its files have."""
    club = base.club
    if club is not None and club.format is None and "/format" not in club.damaged:
        message = "The files are of the older format: a check without `finds` is taken to find every such cause."
        hint = (
            "Write `format: 2`: such a check is then taken to find nine of ten. Where a good result really rules the "
            "causes out, write `finds: 1` at that check."
        )
        yield Breach(path="club.yml", pointer="", message=message, hint=hint)


RULE = Rule(
    code="KB720",
    title="Files of the older format",
    severity="warning",
    what="A club.yml without `format`.",
    why=(
        "No check finds every fault. The older format takes each that does not say otherwise for one that does, so the "
        "plan rules out causes that are still there."
    ),
    sample=Sample(
        path="club.yml",
        instead_of="format: 2\n",
        bad="",
        good="format: 2\n",
    ),
    check=check,
)
