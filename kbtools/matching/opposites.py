"""Words that turn one fault into another: front and rear, too high and too low, will not start and will not stop.

Texts of such faults are nearly the same word for word, so that likeness alone takes them for one. A text *stands* on
a side of an axis if it names that side and not the other. "Not hot" stands on the cold side, and so does "fine when
hot": what is well there is not the trouble. Two texts that stand on different sides of one axis speak of two things.

`axes.py` has the table.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import Final

from kbtools.matching.axes import AXES
from kbtools.matching.words import NOT, sequence, telling, written

Stand = Mapping[str, int]
"""Axis → its sides that a text names, one bit each; an axis that it says nothing about is not there."""


Denials = tuple[frozenset[str], frozenset[str]]
"""Words that a text denies, and words that it says."""


_WELL = re.compile(
    r"\b(?:fine|all good|still good|is good|normal|okay|ok|works|unaffected|disappears|better|recovers|restarts|"
    r"gone (?:when|above|below|after|once|in|at|on|with|as|by|under|if|while)|(?<!and )again(?! and)|"
    r"dry when|silent when|quiet|goes away|go away|vanish(?:es)?|ceases|cured|cures)\b",
    re.IGNORECASE,
)
"""What is well there is not the trouble."""

_CLAUSE = re.compile(r"[,;:.!?()\n]|\b(?:but|while|and(?! again))\b", re.IGNORECASE)

_PREPOSITIONS = frozenset(sequence("on in at when with while for from of after to under by if as once until into"))

_CONTRAST = re.compile(r"\b(?:although|though|despite|in spite of)\b[^,;:.!?()\n]*", re.IGNORECASE)
"""What stands in contrast to the trouble: "hot although the engine is cool" is about hot."""

_SHOWN = re.compile(
    r"(\b(?:gauge|display|needle|bars?|dash|thermometer)\b[^,;:.!?()\n]{0,80}?)"
    r"\b(?:with|when|while)\b(?:\s\w+){0,3}?\s(?:cool|cold|warm|hot)\b",
    re.IGNORECASE,
)
"""What an instrument shows is the trouble, and how the engine really is stands in contrast to it."""

_NEITHER = (
    *(
        "come back",
        "comes back",
        "came back",
        "coming back",
        "go back",
        "goes back",
        "bring back",
        "brings back",
        "spring back",
        "springs back",
    ),
    *(
        "put back",
        "get back",
        "fall back",
        "falls back",
        "snap back",
        "let back",
        "thumps back",
        "let coolant back",
        "back to",
        "back again",
        "back on",
    ),
    *(
        "back and forth",
        "back up",
        "back off",
        "brings it back",
        "bring it back",
        "back in",
        "back after",
        "behind the",
        "behind it",
    ),
    *("right after", "right away", "right at", "right in", "all right", "left on", "left out", "left over", "left in"),
)
"""Phrases whose words name no side."""


_NO_AXIS = -1


def _phrases() -> tuple[dict[str, list[tuple[tuple[str, ...], int, int]]], dict[int, int]]:
    by_first: dict[str, list[tuple[tuple[str, ...], int, int]]] = {}
    for number, axis in enumerate(AXES):
        for side, words in enumerate(axis.sides):
            for phrase in words:
                way = tuple(sequence(phrase))
                by_first.setdefault(way[0], []).append((way, number, side))
    for phrase in _NEITHER:
        way = tuple(sequence(phrase))
        by_first.setdefault(way[0], []).append((way, _NO_AXIS, 0))
    for rows in by_first.values():
        rows.sort(key=lambda row: -len(row[0]))
    return by_first, {number: len(axis.sides) for number, axis in enumerate(AXES)}


_BY_FIRST, _SIDES = _phrases()

VOCABULARY: Final = written(phrase for axis in AXES for side in axis.sides for phrase in side)
"""Every word of the table without its ending → as it is written."""

WORDS: Final = frozenset(way[0] for rows in _BY_FIRST.values() for way, _, _ in rows if len(way) == 1)
"""Single words that name a side, without their endings: one is never a misspelling of another."""


def together(stands: Iterable[Stand]) -> Stand:
    """On which sides several texts stand as one."""
    found: dict[str, int] = {}
    for each in stands:
        for axis, sides in each.items():
            found[axis] = found.get(axis, 0) | sides
    return found


def stand(texts: Iterable[str]) -> Stand:
    """On which sides the texts stand."""
    found: dict[str, int] = {}
    for text in texts:
        for clause in _CLAUSE.split(_SHOWN.sub(r"\1", _CONTRAST.sub(" ", text))):
            for axis, sides in _of_clause(clause).items():
                found[axis] = found.get(axis, 0) | sides
    return found


def _of_clause(clause: str) -> dict[str, int]:
    words = sequence(clause)
    found: dict[str, int] = {}
    well = _WELL.search(clause) is not None
    reached: dict[int, int] = {}
    # "Not start cold" is about cold: its negation belongs to the phrase.
    spoken = {place for place, first in enumerate(words) if first == NOT and _phrase_at(words, place)}
    for place, first in enumerate(words):
        for way, number, side in _BY_FIRST.get(first, ()):
            # Of phrases of one axis the longest one counts: "not light" and not "light".
            if (
                place < max(reached.get(number, 0), reached.get(_NO_AXIS, 0))
                or tuple(words[place : place + len(way)]) != way
            ):
                continue
            reached[number] = place + len(way)
            if number == _NO_AXIS:
                break
            denied = _denied(words, place, spoken)
            if denied != well:
                if _SIDES[number] != 2:
                    continue
                named = 1 - side
            else:
                named = side
            axis = AXES[number].name
            found[axis] = found.get(axis, 0) | 1 << named
    return found


def _denied(words: Sequence[str], place: int, spoken: Collection[int] = ()) -> bool:
    """Whether one of the two words before is a negation meant for this one: "not hot"; not "nothing on hot days"."""
    for at in range(place - 1, max(-1, place - 3), -1):
        if words[at] in _PREPOSITIONS:
            return False
        if words[at] == NOT:
            return at not in spoken
    return False


def _phrase_at(words: Sequence[str], place: int) -> bool:
    return any(tuple(words[place : place + len(way)]) == way for way, _, _ in _BY_FIRST.get(words[place], ()))


def contradict(left: Denials, right: Denials) -> bool:
    """Whether one text denies a word that the other says, or they number different things (cylinder 1, cylinder 2)."""
    numbers = [{word for word in said if len(word) == 1 and word.isdigit()} for _, said in (left, right)]
    if all(numbers) and numbers[0].isdisjoint(numbers[1]):
        return True
    return not left[0].isdisjoint(right[1]) or not right[0].isdisjoint(left[1])


def denials(text: str) -> Denials:
    """The words that a text denies ("does not click"), and those that it says without denying them anywhere."""
    denied: set[str] = set()
    said: set[str] = set()
    for clause in _CLAUSE.split(_CONTRAST.sub(" ", text)):
        words = sequence(clause)
        for place, word in enumerate(words):
            if word != NOT:
                (denied if _denied(words, place) else said).add(word)
    return frozenset(telling(denied)), frozenset(telling(said - denied))


def against(left: Stand, right: Stand) -> tuple[str, ...]:
    """The axes on which two texts stand on different sides."""
    if not left or not right:
        return ()
    return tuple(axis for axis, sides in left.items() if axis in right and not sides & right[axis])
