"""KB422: a group of one word."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short
from kbtools.vocabulary.whole import stems_of


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Groups of `words.yml` whose words are one word with other endings."""
    for group in (*base.words.groups, *base.words.apart):
        ways = {stems_of(each) for each in group.phrases}
        if len(group.phrases) > 1 and len(ways) == 1:
            message = f"The words of this group are one word already: {short(', '.join(group.phrases))}."
            hint = "Endings are taken off anyway; write another word beside it, or take the group out."
            yield Breach(path="words.yml", pointer=group.at, message=message, hint=hint)


RULE = Rule(
    code="KB422",
    title="Group of one word",
    severity="warning",
    what="In `words.yml`: a group whose words differ in their English ending only, in accents or in capitals.",
    why="Nothing follows from it, and whoever wrote it thinks that something does.",
    sample=Sample(path="words.yml", instead_of="", bad="- [slips, slipping]\n", good="- [slips, skids]\n"),
    check=check,
)
