"""The sources of a merged draft; a recall or bulletin covers what it covered before, and no more."""

from __future__ import annotations

import dataclasses
from collections.abc import Set as AbstractSet

from kbtools.merging.each_once import each_once
from kbtools.merging.machines import covered_by_either
from kbtools.merging.rows import filled, rows_of_both
from kbtools.model.fault import NOTICES, Fault, Source


def sources_of_both(first: Fault, theirs: Fault) -> tuple[Source, ...]:
    """The first one's sources, then those that only the second one has; notices name all that they cover.

    Args:
        first: the fault whose place the draft takes.
        theirs: the other one, its causes with the ids that they have in the draft.
    """
    return rows_of_both(_placed(first), _placed(theirs), _joined)


def _placed(fault: Fault) -> list[Source]:
    """What a notice covers by naming nothing is the whole of its own entry, not of the draft."""
    return [
        dataclasses.replace(
            source,
            applies_to=source.applies_to or fault.applies_to,
            covers=source.covers or tuple(cause.id for cause in fault.causes),
        )
        if source.kind in NOTICES
        else source
        for source in fault.sources
    ]


def _joined(own: Source, theirs: Source) -> Source:
    covers = each_once((*own.covers, *theirs.covers)) if own.covers and theirs.covers else ()
    return dataclasses.replace(
        filled(own, theirs), applies_to=covered_by_either(own.applies_to, theirs.applies_to), covers=covers
    )


def covering(source: Source, kept: AbstractSet[str]) -> Source | None:
    """The source without causes that were left out; None where it then covers none, since none named means all."""
    covers = tuple(each for each in source.covers if each in kept)
    if source.covers and not covers:
        return None
    return dataclasses.replace(source, covers=() if kept <= set(covers) else covers)
