"""Which texts entries have, as arrays: of each text the place of its entry, what it is there, and its number."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from kbtools.browser_data.finder.arrays import Bools, Ints, ints
from kbtools.browser_data.finder.entries import Entry
from kbtools.browser_data.finder.texts import Numbers, Texts


@dataclass(frozen=True, slots=True, kw_only=True)
class Uses:
    """Texts in the order of their entries; one that an entry has twice stands there twice."""

    place: Ints
    """Of the entry."""
    field: Ints
    """Which of `names` it is there."""
    text: Ints
    """Its number among the texts."""
    names: Sequence[str]
    """What kinds of text there are."""

    def those(self, wanted: Bools) -> Uses:
        """Some of them."""
        return Uses(place=self.place[wanted], field=self.field[wanted], text=self.text[wanted], names=self.names)


def own_uses(found: Sequence[Entry], texts: Texts) -> Uses:
    """The texts that entries are found by; of each entry the title comes first."""
    return _uses(({"title": (entry.title,), **entry.fields} for entry in found), texts)


def lenders_uses(found: Sequence[Entry], texts: Texts) -> Uses:
    """The texts that only lend words."""
    return _uses((entry.lenders for entry in found), texts)


def _uses(rows: Iterable[Mapping[str, Sequence[str]]], texts: Texts) -> Uses:
    names = Numbers()
    places: list[int] = []
    fields: list[int] = []
    sizes: list[int] = []
    every: list[str] = []
    for place, row in enumerate(rows):
        for name, given in row.items():
            places.append(place)
            fields.append(names[name])
            sizes.append(len(given))
            every += given
    many = ints(sizes)
    return Uses(
        place=np.repeat(ints(places), many),
        field=np.repeat(ints(fields), many),
        text=texts.cut(every),
        names=tuple(names),
    )
