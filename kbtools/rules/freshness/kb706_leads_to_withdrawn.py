"""KB706: leads to a withdrawn entry."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.heirs import end_of
from kbtools.index.references import references_to_faults
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Cases and living entries that name an entry which another one has replaced."""
    for reference in references_to_faults(base):
        fault = base.faults.get(reference.id)
        # Of `replaced_by` KB315 asks more. An entry that nothing has replaced is still what an old case is about.
        if fault is None or fault.withdrawn is None or reference.pointer.endswith("/replaced_by"):
            continue
        heir = end_of(base, fault.id)
        if heir is None or base.faults[heir].withdrawn is not None or _gone(base, reference.path):
            continue
        message = f'"{fault.id}" is withdrawn; "{heir}" has taken its place.'
        own = base.faults[heir].path == reference.path
        hint = "Take this out." if own else f'Name "{heir}" if it fits as well, or take this out.'
        yield Breach(path=reference.path, pointer=reference.pointer, message=message, hint=hint)


def _gone(base: KnowledgeBase, path: str) -> bool:
    """Whether the file is a withdrawn entry's, whose links nobody needs to keep up."""
    fault = base.faults.get(path.rpartition("/")[2].removesuffix(".yml")) if path.startswith("faults/") else None
    return fault is not None and fault.withdrawn is not None


RULE = Rule(
    code="KB706",
    title="Leads to a withdrawn entry",
    severity="warning",
    what="A case, `related` or `distinct_from` that names a withdrawn entry which another one has replaced.",
    why="The link leads to a note instead of advice, and the case counts for nothing.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="related: [battery-flat]",
        bad="related: [lamp-glows]",
        good="related: [battery-flat]",
    ),
    check=check,
)
