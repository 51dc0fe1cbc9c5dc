"""The weight of a term in an entry: BM25 over weighted fields.

Robertson and Zaragoza, "The Probabilistic Relevance Framework: BM25 and Beyond" (2009), in the simple form for fields:
a term that stands in a field of weight w counts as if it stood there w times, and lengths count alike. The variant is
that which Lucene uses: the inverse document frequency is ln(1 + (N - n + 0.5) / (n + 0.5)), and the factor k1 + 1, the
same for all, is left out. The tests hold it to an independent library.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

K1: Final = 1.2
"""How soon a term that stands there often counts no more."""
B: Final = 0.75
"""How much of a long entry's advantage is taken away."""
LEAST_HAVING: Final = 0.2
"""Of what an entry is found by beside its words: what weighs less makes no word commoner."""

WEIGHTS: Final[Mapping[str, int]] = {
    "title": 5,
    "names": 5,
    "symptoms": 4,
    "meanings": 3,
    "values": 3,
    "reported": 2,
    "causes": 2,
    "components": 2,
    "system": 2,
    "models": 1,
    "units": 1,
    "signs": 1,
    "checks": 1,
}
"""By field; whole numbers, so that an index over texts written so many times is the same."""


def weights(
    entries: Sequence[Mapping[str, Iterable[str]]],
    by_field: Mapping[str, int] = WEIGHTS,
    kin: Sequence[Mapping[str, tuple[float, float]]] = (),
) -> dict[str, dict[int, float]]:
    """Term → entry's place → weight; the score of a query is the sum over its terms.

    Args:
        entries: of each entry the terms by field.
        by_field: weights of the fields; one that is not named counts once.
        kin: of each entry the terms that it is found by though it does not have them: how often each counts as
            standing there, and what it then weighs beside one that does. No entry is the longer for them.
    """
    counted = [_counted(entry, by_field) for entry in entries]
    lengths = [sum(counts.values()) for counts in counted]
    usual = sum(lengths) / len(lengths) if any(lengths) else 1.0
    dampings = [K1 * (1 - B + B * length / usual) for length in lengths]
    found: dict[str, dict[int, float]] = {}
    for place, counts in enumerate(counted):
        for term, count in counts.items():
            found.setdefault(term, {})[place] = count / (count + dampings[place])
    having = {term: float(len(places)) for term, places in found.items()}
    own = frozenset(having)
    for place, near in enumerate(kin):
        for term, (often, factor) in near.items():
            places = found.setdefault(term, {})
            weight = factor * often / (often + dampings[place])
            if weight > places.get(place, 0.0):
                # A word that others have is no commoner for being a piece of a phrase here.
                if place not in places and (factor >= LEAST_HAVING or term not in own):
                    having[term] = having.get(term, 0.0) + factor
                places[place] = weight
    for term, places in found.items():
        rare = rarity(having[term], len(entries))
        for place in places:
            places[place] *= rare
    return found


def rarity(count: float, entries: int) -> float:
    """The inverse document frequency of a term that `count` of the entries have."""
    return math.log(1 + (entries - count + 0.5) / (count + 0.5))


def _counted(entry: Mapping[str, Iterable[str]], by_field: Mapping[str, int]) -> Counter[str]:
    counts: Counter[str] = Counter()
    for field, terms in entry.items():
        weight = by_field.get(field, 1)
        for term in terms:
            counts[term] += weight
    return counts
