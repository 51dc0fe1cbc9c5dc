"""KB303: unknown component."""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Iterator

from kbtools.index.entries import fault_at
from kbtools.model.base import KnowledgeBase
from kbtools.reading.layout import fitting_id
from kbtools.rules.references.named import unknown
from kbtools.rules.rule import Breach, Rule, Sample

_MOST = 12
"""Components that a hint names."""


def check(base: KnowledgeBase, today: dt.date) -> Iterator[Breach]:
    """Components that are not there, with those of the entry's system and how to add one."""
    entries = fault_at(base)
    for breach in unknown("component")(base, today):
        entry = entries.get(breach.path)
        yield dataclasses.replace(breach, hint=_hint(base, breach, None if entry is None else entry.system))


def _hint(base: KnowledgeBase, breach: Breach, system: str | None) -> str:
    if breach.hint.startswith("Did you mean"):
        return breach.hint
    there = [each.id for each in base.components.values() if each.system == system]
    listed = f"Of {system} there {'are' if len(there) > 1 else 'is'}: {', '.join(there[:_MOST])}." if there else ""
    written = breach.message.split('"')[1]
    new = f"{{id: {fitting_id(written) or 'a-new-id'}, name: …, system: {system or '…'}}}"
    return " ".join(filter(None, (listed, f"A new one is a row of `components` in systems.yml: `- {new}`.")))


RULE = Rule(
    code="KB303",
    title="Unknown component",
    severity="error",
    what="A component that systems.yml does not have.",
    why="The cause would not be linked with others of the same part.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="component: regulator",
        bad="component: regulater",
        good="component: regulator",
    ),
    alone="any day",
    check=check,
)
