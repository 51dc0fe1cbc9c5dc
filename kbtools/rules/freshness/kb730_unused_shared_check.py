"""KB730: shared check that nobody uses."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.checks import uses
from kbtools.model.base import KnowledgeBase
from kbtools.model.shared import SHARED_PATH
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.short import short


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Shared checks that no entry uses, drafts counted. Nothing is said while one may be meant by what is not there.

    Nor in a young base, with more shared checks than entries: the set that a club begins with waits for them.
    """
    if len(base.checks) > len(base.faults):
        return
    if "fault" in base.unsure or not base.whole or _something_is_missing(base):
        return
    for shared in base.checks.values():
        if shared.id not in uses(base):
            message = f'No entry uses the shared check "{short(shared.id)}".'
            hint = f"Use it where it tells causes apart, `{{use: {short(shared.id)}, …}}`, or take it out."
            yield Breach(path=SHARED_PATH, pointer=f"{shared.at}/id", message=message, hint=hint)


def _something_is_missing(base: KnowledgeBase) -> bool:
    """A use of what is not there, or an entry that another one of the same name hides."""
    unknown = any(each not in base.checks for each in uses(base))
    return unknown or any(each.kind in {"fault", "shared check"} for each in base.repeated)


_ROW = "  - {{id: {}, do: Look at the lamp., expect: It is dark., minutes: 1, skill: home}}\n"

RULE = Rule(
    code="KB730",
    title="Shared check that nobody uses",
    severity="warning",
    what="A check of checks.yml that no entry uses, once there are as many entries as such checks.",
    why="It is on no page, and nobody would notice when it is wrong.",
    sample=Sample(
        path="checks.yml",
        instead_of="checks:\n",
        bad="checks:\n" + _ROW.format("lamp-dark"),
        good="checks:\n",
    ),
    check=check,
)
