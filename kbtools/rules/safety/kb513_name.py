"""KB513: what looks like the name of a person."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import faults
from kbtools.model.base import KnowledgeBase
from kbtools.personal import name
from kbtools.personal.span import hidden
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.rules.safety.texts import WITHOUT_LINKS, Sought, breach_in_id, personal, suspects

_SOUGHT = Sought(
    what="What looks like the name of a person",
    hint="Take it out; write a role instead: owner, mechanic-2.",
    may_hold=name.may_hold,
    find=name.find,
    kinds=WITHOUT_LINKS | {"comment"},
)


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Names in texts, comments and pages, given names in ids and names of files, and names in the place of a role."""
    yield from personal(base, _SOUGHT)
    for writing, index in suspects(base, frozenset({"id"}), name.may_hold_in_id):
        for span in name.find_in_id(writing.texts[index]):
            yield breach_in_id(writing, index, _SOUGHT.what, hidden(writing.texts[index], span))
            break
    for fault in faults(base):
        if fault.reviewed is not None:
            for role, key in ((fault.reviewed.by, "by"), (fault.reviewed.second or "", "second")):
                if name.is_person(role) and not any(name.find(role)):
                    message = f"`{key}` looks like the name of a person."
                    pointer = f"{fault.reviewed.at}/{key}"
                    yield Breach(path=fault.path, pointer=pointer, message=message, hint=_SOUGHT.hint)


RULE = Rule(
    code="KB513",
    title="Name of a person",
    severity="warning",
    what=(
        "Capitalised words behind `Owner:`, `thanks to`, `by`, `my mate` and the like, behind a form of address or at "
        "the end of a letter, in several languages; a given name with another word, or in an id; and "
        "two or three words in the place of a reviewer's role."
    ),
    why="A case must not lead to a person.",
    sample=Sample(
        path="cases/2026/wren-400-0001.yml",
        instead_of="title: Member report",
        bad='title: "Owner: Anna Beispiel"',
        good='title: "Owner: first report"',
    ),
    alone="any day",
    check=check,
)
