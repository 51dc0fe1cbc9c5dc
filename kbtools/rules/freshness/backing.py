"""What carries an entry beside its curator's word: cases that count, and sources that answer for what they say."""

from __future__ import annotations

from kbtools.index.cases import cases_known, counted_naming
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault

HEARSAY = frozenset({"forum", "article"})
"""Kinds of sources that repeat what somebody said; the others measured it themselves or answer for it."""

ENOUGH = 3
"""Counted cases, of bikes that nobody picked, that carry an entry without any better source. No source: a choice."""


def thread_alone(base: KnowledgeBase, fault: Fault) -> bool:
    """Whether nothing but forum threads is behind an entry: no other source, and no counted case from elsewhere."""
    if (
        not cases_known(base)
        or not fault.sources
        or not fault.intact("/sources")
        or any(each.kind != "forum" for each in fault.sources)
    ):
        return False
    cases = counted_naming(base).get(fault.id, ())
    return all(case.source is not None and case.source.kind == "forum" for case in cases)
