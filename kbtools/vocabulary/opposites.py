"""Words that turn one fault into another: front and rear, too high and too low, will not start and will not stop.

Texts of such faults are nearly the same word for word, so that likeness alone takes them for one. A text *stands* on
a side of an axis if it names that side and not the other. "Not hot" stands on the cold side, and so does "fine when
hot": what is well there is not the trouble. Two texts that stand on different sides of one axis speak of two things.

`data/opposites.yml` has the table.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from kbtools.model.vocabulary import Axis
from kbtools.vocabulary.clauses import Clause, clauses
from kbtools.vocabulary.stems import NOT, sequence, telling, written

Stand = Mapping[str, int]
"""Axis → its sides that a text names, one bit each; an axis that it says nothing about is not there. The name of one
whose sides are places begins with `@`, so that a stand tells by itself."""


Denials = tuple[frozenset[str], frozenset[str]]
"""Words that a text denies, and words that it says."""


_EVERY: Final = -1
"""Stands for all axes."""
_NO_SIDE: Final = -1
_PLACE: Final = "@"


def together(stands: Iterable[Stand]) -> Stand:
    """On which sides several texts stand as one."""
    found: dict[str, int] = {}
    for each in stands:
        for axis, sides in each.items():
            found[axis] = found.get(axis, 0) | sides
    return found


class Opposites:
    """What excludes each other, made ready for reading texts."""

    def __init__(self, every: Sequence[Axis], nothing: Iterable[str]) -> None:
        """Take the axes, and phrases that name no side of any."""
        self._axes = tuple(every)
        self._by_first = _phrases(self._axes, nothing)
        self._names = [f"{_PLACE}{axis.name}" if axis.place else axis.name for axis in every]
        self.written: Final = written(phrase for axis in every for side in axis.sides for phrase in side)
        """Every word of the table without its ending → as it is written."""

    def stand(self, texts: Iterable[str]) -> Stand:
        """On which sides the texts stand."""
        return together(self._of_clause(clause) for text in texts for clause in clauses(text))

    def _of_clause(self, clause: Clause) -> Stand:
        words = clause.words
        following = (*words[1:], None)
        found: dict[str, int] = {}
        reached: dict[int, int] = {}
        # "Not start cold" is about cold: its negation belongs to the phrase, for the axis that has it.
        spoken = {place: self._axes_at(words, place) for place, first in enumerate(words) if first == NOT}
        for place, first in enumerate(words):
            for way, number, side in self._by_first.get(first, ()):
                # Most phrases differ in their second word already.
                if len(way) > 1 and (way[1] != following[place] or tuple(words[place : place + len(way)]) != way):
                    continue
                # Of phrases of one axis the longest one counts: "not light" and not "light".
                if place < reached.get(number, 0) or place < reached.get(_EVERY, 0):
                    continue
                reached[number] = place + len(way)
                if number == _EVERY:
                    break
                if side == _NO_SIDE:
                    continue
                axis = self._axes[number]
                own = None if axis.place else {at for at in spoken if number in spoken[at]}
                sides = _named(axis, side, clause.turned(place, own))
                if sides:
                    found[self._names[number]] = found.get(self._names[number], 0) | sides
        return found

    def _axes_at(self, words: Sequence[str], place: int) -> set[int]:
        ways = self._by_first.get(words[place], ())
        return {number for way, number, _ in ways if tuple(words[place : place + len(way)]) == way}


_Phrase = tuple[tuple[str, ...], int, int]
"""The words of a phrase, the number of its axis, its side."""


def _phrases(every: Iterable[Axis], nothing: Iterable[str]) -> dict[str, list[_Phrase]]:
    """First word of a phrase → the phrase, its axis and its side; the longest phrases first."""
    by_first: dict[str, list[_Phrase]] = {}
    rows = [(phrase, _EVERY, _NO_SIDE) for phrase in nothing]
    for number, axis in enumerate(every):
        rows += [(phrase, number, _NO_SIDE) for phrase in axis.neither]
        rows += [(phrase, number, side) for side, words in enumerate(axis.sides) for phrase in words]
    for phrase, number, side in rows:
        way = tuple(sequence(phrase))
        if way:
            by_first.setdefault(way[0], []).append((way, number, side))
    for ways in by_first.values():
        ways.sort(key=lambda row: -len(row[0]))
    return by_first


def _named(axis: Axis, side: int, turned: bool | None) -> int:
    """The sides that are meant, one bit each; 0: of more than two, all but one, which says nothing."""
    if turned is False:
        return 1 << side
    if len(axis.sides) != 2:
        return 0
    return 0b11 if turned is None else 1 << (1 - side)


def contradict(left: Denials, right: Denials) -> bool:
    """Whether one text denies a word that the other says."""
    return not left[0].isdisjoint(right[1]) or not right[0].isdisjoint(left[1])


_NUMBER: Final = re.compile(r"(?<![\w.-])\d{1,5}(?:\.\d+)?(?![\w-])")
_FAR, _OTHER_UNIT = 1.6, 10.0
"""Numbers within the first ratio may be one from memory; beyond the second one they are not of one unit."""


def numbers(text: str) -> frozenset[float] | None:
    """The numbers of a text that stand by themselves (no codes, no years with letters); None if there are none."""
    return frozenset(float(each) for each in _NUMBER.findall(text)) or None


def numbers_alike(left: frozenset[float], right: frozenset[float]) -> float:
    """0 where the texts number different things: cylinder 1 and cylinder 2, a shake at 70 and one at 150."""
    ratios = [max(one, other) / max(1e-9, min(one, other)) for one in left for other in right]
    small = [max(one, other) < 10.0 for one in left for other in right]
    apart = all(ratio > (1.0 if few else _FAR) for ratio, few in zip(ratios, small, strict=True))
    return 0.0 if apart and min(ratios) < _OTHER_UNIT else 1.0


_THINGS: Final = frozenset(
    sequence(
        "light lamp idle front back rear left right pressure gear clutch brake switch lock coolant oil fuel full "
        "beam dip main"
    )
)
"""Words that mostly name a thing or a place: "does not light" and "the light" do not contradict each other."""


def denials(text: str) -> Denials:
    """The words that a text denies ("does not click"), and those that it says without denying them anywhere."""
    denied: set[str] = set()
    said: set[str] = set()
    for clause in clauses(text):
        for place, word in enumerate(clause.words):
            if word != NOT:
                (denied if clause.denies(place) else said).add(word)
    return frozenset(telling(denied - _THINGS)), frozenset(telling(said - denied))


def against(left: Stand, right: Stand, *, places: bool = True) -> tuple[str, ...]:
    """The axes on which two texts stand on different sides.

    Args:
        left: where the one stands.
        right: where the other stands.
        places: whether axes count that say where or which; a longer text names many a part by the way.
    """
    if not left or not right:
        return ()
    return tuple(
        axis
        for axis, sides in left.items()
        if axis in right and not sides & right[axis] and (places or not axis.startswith(_PLACE))
    )
