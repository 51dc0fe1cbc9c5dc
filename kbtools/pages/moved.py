"""What stands at the addresses of entries that are gone: redirects from old ids, tombstones of withdrawn entries."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from kbtools.index.answers import Index
from kbtools.pages import crumbs
from kbtools.pages.lines import Link
from kbtools.pages.planned import Planned
from kbtools.pages.spec import PageSpec
from kbtools.wording import addresses


def pages(index: Index) -> Iterator[Planned]:
    """A redirect for each old id, and a tombstone for each withdrawn entry."""
    for old, new in index.renamed.items():
        if index.entry(new) is not None:
            yield _planned(old, "redirect", partial(_redirect, old, index))
    for each in index.tombstones:
        yield _planned(each, "tombstone", partial(_tombstone, each, index))


def _planned(fault_id: str, kind: str, make: Callable[[], PageSpec]) -> Planned:
    return Planned(address=addresses.fault(fault_id), kind=kind, make=make, listed=False)


def _redirect(old: str, index: Index) -> PageSpec:
    entry = index.entry(index.renamed[old])
    if entry is None:
        raise LookupError(f"nothing stands for {old}")
    to = addresses.fault(entry.id)
    return PageSpec(
        address=addresses.fault(old),
        kind="redirect",
        title=entry.title,
        description=f"This entry has moved: {entry.title}.",
        context={"to": Link(address=to, title=entry.title)},
        redirect_to=to,
        listed=False,
    )


def _tombstone(entry_id: str, index: Index) -> PageSpec:
    entry = index.tombstones[entry_id]
    path = index.paths.get(entry.system or "", ())
    heir = index.advice(entry.id)
    return PageSpec(
        address=addresses.fault(entry.id),
        kind="tombstone",
        title=entry.title,
        description=f"Withdrawn, no longer advice: {entry.title}.",
        context={
            "withdrawn": entry.withdrawn,
            "heir": Link(address=addresses.fault(heir.id), title=heir.title) if heir is not None else None,
            "systems": tuple(Link(address=addresses.system(each.id), title=each.name) for each in path),
        },
        edit_path=entry.path,
        crumbs=crumbs.system_crumbs(path),
        listed=False,
    )
