"""What stands at the addresses of entries that are gone: redirects from old ids, tombstones of withdrawn entries."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.index.answers import Index
from kbtools.model.fault import Fault
from kbtools.pages import crumbs
from kbtools.pages.lines import Link
from kbtools.pages.spec import PageSpec
from kbtools.wording import addresses


def pages(index: Index) -> Iterator[PageSpec]:
    """A redirect for each old id, and a tombstone for each withdrawn entry."""
    for old, new in index.renamed.items():
        entry = index.entry(new)
        if entry is not None:
            yield _redirect(old, entry)
    for entry in index.tombstones.values():
        yield _tombstone(entry, index)


def _redirect(old: str, entry: Fault) -> PageSpec:
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


def _tombstone(entry: Fault, index: Index) -> PageSpec:
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
