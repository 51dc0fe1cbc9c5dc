"""What two entries have in common, in their own words: which words met, and which causes say the same."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

from kbtools.model.fault import Cause, Fault
from kbtools.similarity.comparison import Comparison
from kbtools.similarity.features import Readier

SAME_CAUSE: Final = 0.55
"""Likeness of the summaries of two causes from which they are one."""
_SAME_WAY: Final = 0.3
"""The same, of the same part that fails in the same way."""
_MOST_WORDS: Final = 8
_WORD: Final = re.compile(r"[\w'-]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """What two entries have in common."""

    words: tuple[str, ...]
    """Words of the first one's title and symptoms that the second one's say too, perhaps by another word. Hostile."""
    causes: tuple[tuple[str, str], ...]
    """Ids of causes that say the same, the first one's first."""


def met(compared: Comparison, one: Fault, other: Fault) -> Met:
    """What one entry has in common with another one of the same base."""
    return compared.came_out(
        f"met {one.id} {other.id}",
        lambda: _met(compared.readier, one, other),
        lambda both: [both.words, both.causes],
        _of,
    )


def _of(row: Any) -> Met:
    words, causes = row
    return Met(words=tuple(words), causes=tuple((mine, theirs) for mine, theirs in causes))


def _met(readier: Readier, one: Fault, other: Fault) -> Met:
    lexicon = readier.lexicon
    there = set(lexicon.words([other.title, *other.symptoms]))
    words = (word for text in (one.title, *one.symptoms) for word in _WORD.findall(text))
    common = (word.casefold() for word in words if not there.isdisjoint(lexicon.words([word])))
    return Met(words=tuple(dict.fromkeys(common))[:_MOST_WORDS], causes=tuple(_causes(readier, one, other)))


def _causes(readier: Readier, one: Fault, other: Fault) -> Iterator[tuple[str, str]]:
    for cause in one.causes:
        twin = next((each.id for each in other.causes if same_cause(readier, cause, each) >= SAME_CAUSE), None)
        if twin is not None:
            yield cause.id, twin


def same_cause(readier: Readier, left: Cause, right: Cause) -> float:
    """How alike two causes are, from 0 to 1; from `SAME_CAUSE` on they are one.

    Different parts are never the same; of one part that fails in one way fewer words will do.
    """
    parts = (left.component, right.component)
    if None not in parts and left.component != right.component:
        return 0.0
    bag = readier.lexicon.bag
    one, two = bag([left.summary or left.id]), bag([right.summary or right.id])
    told = readier.lexicon.alike(one, two) if one is not None and two is not None else 0.0
    alike = None not in parts and bool(readier.ways(left) & readier.ways(right))
    return max(told, SAME_CAUSE) if alike and told >= _SAME_WAY else told
