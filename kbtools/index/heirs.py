"""Who stands for an entry that is gone: old ids under `formerly`, and withdrawn entries with `replaced_by`.

The site, the rules and the comparison of entries ask differently, on purpose:

- `renamed`: the site. A draft has no address yet, so nothing leads to it.
- `heirs`: the comparison of entries. A draft may be told apart by its old id as well.
- `heirs_of_gone`: the rules. An id that an entry bears is never an old one, whoever claims it (KB313).
- `end_of`: the rules, by `replaced_by` as written: naming an old id there is a mistake of its own (KB310).
- `stands_for`: the site, where an old id leads on.
"""

from __future__ import annotations

from collections.abc import Mapping

from kbtools.index.entries import published, tombstones
from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase


@per_base
def claims(base: KnowledgeBase) -> Mapping[str, tuple[str, ...]]:
    """Old id → ids of the entries that say they bore it, in the order of the files; more than one is KB313's."""
    found: dict[str, list[str]] = {}
    for fault in base.faults.values():
        for old in fault.formerly:
            found.setdefault(old, []).append(fault.id)
    return {old: tuple(ids) for old, ids in found.items()}


@per_base
def heirs(base: KnowledgeBase) -> Mapping[str, str]:
    """Old id → id of the entry that bore it, whatever its state; of several that claim it the last."""
    return {old: ids[-1] for old, ids in claims(base).items()}


@per_base
def heirs_of_gone(base: KnowledgeBase) -> Mapping[str, str]:
    """As `heirs`, without the old ids that an entry bears."""
    return {old: heir for old, heir in heirs(base).items() if old not in base.faults}


@per_base
def renamed(base: KnowledgeBase) -> Mapping[str, str]:
    """Old id → id of the entry at whose address it leads on, which is published or withdrawn."""
    on_the_site = (*published(base).values(), *tombstones(base).values())
    return {old: entry.id for entry in on_the_site for old in entry.formerly}


@per_base
def old_ids(base: KnowledgeBase) -> Mapping[str, tuple[str, ...]]:
    """Id of an entry of the site → the ids that it had before, as its file has them; without those that had none."""
    on_the_site = (*published(base).values(), *tombstones(base).values())
    return {entry.id: entry.formerly for entry in on_the_site if entry.formerly}


@per_base
def replaced_by(base: KnowledgeBase) -> Mapping[str, str]:
    """Withdrawn entry → the one that it says to read instead, both by id, as written; that one may not exist."""
    return {
        fault.id: fault.withdrawn.replaced_by
        for fault in base.faults.values()
        if fault.withdrawn is not None and fault.withdrawn.replaced_by is not None
    }


@per_base
def _ends(base: KnowledgeBase) -> Mapping[str, str | None]:
    there = {old: new for old, new in replaced_by(base).items() if new in base.faults}
    return ends(there)


def end_of(base: KnowledgeBase, fault_id: str) -> str | None:
    """The entry at which a reader arrives who follows `replaced_by` as written; None if it leads round a circle."""
    return _ends(base).get(fault_id, fault_id)


@per_base
def stands_for(base: KnowledgeBase) -> Mapping[str, str]:
    """Withdrawn entry of the site → the published one that took its place, however many steps away.

    Those that nothing has replaced, or that lead round a circle, are missing.
    """
    advice, gone, now = published(base), tombstones(base), renamed(base)
    named = {old: now.get(new, new) for old, new in replaced_by(base).items() if old in gone}
    there = {old: new for old, new in named.items() if new in advice or new in gone}
    return {old: end for old, end in ends(there).items() if end is not None and end in advice}


def ends(after: Mapping[str, str]) -> dict[str, str | None]:
    """Where one arrives who goes on from each id as long as `after` tells whereto; None round a circle. Linear."""
    found: dict[str, str | None] = {}
    for start in after:
        way: dict[str, None] = {}
        at = start
        while at in after and at not in found and at not in way:
            way[at] = None
            at = after[at]
        end = None if at in way else found.get(at, at)
        found |= dict.fromkeys(way, end)
    return found
