"""How faults are compared: which fields, what each counts for, and what it means if one is silent.

Weights, gates and the threshold were chosen on the `choose` parts of the labelled set in `tests/similar/`.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from kbtools.similarity.engine import Field, Matcher
from kbtools.similarity.lexicon import Lexicon
from kbtools.similarity.likeness import same, sets
from kbtools.similarity.ready import ReadyCause, ReadyCode, ReadyFault
from kbtools.vocabulary.failures import ways_alike
from kbtools.vocabulary.opposites import Stand, against, contradict, numbers_alike

THRESHOLD: Final = 0.48
"""From here on a pair of faults is shown."""
LINK: Final = 0.42
"""Down to here groups of faults are joined, so that a pair is scored with its neighbours."""

_OTHER_WAY = 0.74
"""What is left where the causes name other ways of failing."""
_TORN = 0.2
"""Likeness where the titles stand on different sides, and one of the entries itself names the other one's side as well:
its title was perhaps read wrongly."""
_AT_ODDS = 0.3
"""Likeness where one title stands on another side than what the other entry tells."""


def code_alike(left: ReadyCode, right: ReadyCode) -> float:
    """The same trouble with another failure type is near; the same code of another unit is another code."""
    if left.base != right.base:
        # Neighbours are mostly about one circuit, yet often one says too high and the other too low.
        return 0.2 if left.base[:-1] == right.base[:-1] else 0.0
    failure = 1.0 if left.failure == right.failure else 0.85 if None in {left.failure, right.failure} else 0.7
    unit = 1.0 if left.unit == right.unit else 0.95 if None in {left.unit, right.unit} else 0.3
    return failure * unit


def _machines_alike(left: Mapping[str, int], right: Mapping[str, int]) -> float:
    """The share of the smaller one's model years that both concern; next years of one model are nearer than another."""
    shared = sum((years & right.get(model, 0)).bit_count() for model, years in left.items())
    least = min(sum(map(int.bit_count, left.values())), sum(map(int.bit_count, right.values())))
    if shared:
        return 0.6 + 0.4 * shared / least
    if left.keys() == right.keys() and left == right:
        return 1.0
    return 0.5 if left.keys() & right.keys() else 0.0


def _units_alike(left: frozenset[str], right: frozenset[str]) -> float:
    return 1.0 if left & right else 0.0


def _stands_alike(left: tuple[Stand, ...], right: tuple[Stand, ...]) -> float:
    """1: nothing against it; 0: the titles stand on different sides; between: one title and what the other one tells.

    What symptoms and causes say beside the titles is no matter: in a longer text many a side is named by the way.
    """
    apart = against(left[0], right[0])
    if apart:
        torn = (left[2].get(axis, 0) & right[0][axis] or right[2].get(axis, 0) & left[0][axis] for axis in apart)
        return _TORN if all(torn) else 0.0
    for one, other in zip(left[1:], right[1:], strict=True):
        if against(left[0], other, places=False) or against(one, right[0], places=False):
            return _AT_ODDS
    return 1.0


def _components_alike(left: Mapping[str, float], right: Mapping[str, float]) -> float:
    """How much of the weight of their components they share: half by both, half by the one that names fewer."""
    shared = math.fsum(weight for part, weight in left.items() if part in right)
    one, other = math.fsum(left.values()), math.fsum(right.values())
    return shared / (one + other) + 0.5 * shared / min(one, other)


def _stands(fault: ReadyFault) -> tuple[Stand, ...]:
    return fault.title_stand, fault.stand, fault.whole_stand


def matcher(lexicon: Lexicon) -> Matcher[ReadyFault]:
    """The comparison of faults, with the words of their base."""

    def cause_alike(left: ReadyCause, right: ReadyCause) -> float:
        if left.words is None or right.words is None:
            told = 0.5
        else:
            told = lexicon.alike(left.words, right.words)
            if against(left.stand, right.stand):
                told *= 0.3
        if left.component is None or right.component is None:
            return told
        return 0.35 + 0.65 * told if left.component == right.component else 0.5 * told

    def undenied(left: ReadyFault, right: ReadyFault) -> float:
        """One title denies what the other one says: the worse, the more alike they are otherwise."""
        if left.title is None or right.title is None or not contradict(left.denials, right.denials):
            return 1.0
        return 1.0 - lexicon.alike(left.title, right.title)

    causes_alike = sets(cause_alike, part=0.7)
    return Matcher(
        (
            Field(name="opposites", read=_stands, like=_stands_alike, gate=0.0, enough=0.4),
            Field(name="units", read=lambda fault: fault.units, like=_units_alike, gate=0.4),
            Field(name="applies_to", read=lambda fault: fault.machines, like=_machines_alike, weight=0.2, gate=0.5),
            Field(name="system", read=lambda fault: fault.system, like=same, weight=0.2, gate=0.4),
            Field(name="components", read=lambda fault: fault.components, like=_components_alike, weight=0.5, gate=0.5),
            Field(name="codes", read=lambda fault: fault.codes, like=sets(code_alike, part=0.7), weight=0.6, gate=0.5),
            Field(name="numbers", read=lambda fault: fault.numbers, like=numbers_alike, gate=0.3),
            Field(name="denials", read=lambda fault: fault, like=undenied, gate=0.3),
            Field(name="failure", read=lambda fault: fault.ways, like=ways_alike, gate=_OTHER_WAY),
            Field(name="title", read=lambda fault: fault.title, like=lexicon.alike, weight=0.7),
            Field(
                name="words", read=lambda fault: fault.everything, like=lexicon.alike, weight=4.5, gate=0.8, enough=0.4
            ),
            Field(
                name="causes",
                read=lambda fault: fault.causes,
                like=causes_alike,
                weight=4.0,
                gate=0.5,
                enough=0.4,
                missing=0.3,
            ),
            Field(name="work", read=lambda fault: fault.work, like=lexicon.alike, weight=1.0),
            Field(name="symptoms", read=lambda fault: fault.symptoms, like=lexicon.alike, weight=0.6),
        ),
        power=0.5,
    )
