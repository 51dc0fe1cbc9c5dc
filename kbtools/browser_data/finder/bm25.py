"""The weight of a term in an entry: BM25 over weighted fields.

Robertson and Zaragoza, "The Probabilistic Relevance Framework: BM25 and Beyond" (2009), in the simple form for fields:
a term that stands in a field of weight w counts as if it stood there w times, and lengths count alike. The variant is
that which Lucene uses: the inverse document frequency is ln(1 + (N - n + 0.5) / (n + 0.5)), and the factor k1 + 1, the
same for all, is left out. The tests hold it to an independent library.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any, Final

import numpy as np
import numpy.typing as npt

from kbtools.browser_data.finder.arrays import Floats

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


def dampings(lengths: Floats) -> Floats:
    """Of each entry what the count of a term is held against.

    Args:
        lengths: how many terms each entry has, each as often as its field weighs.
    """
    usual = lengths.sum() / len(lengths) if lengths.any() else 1.0
    return np.asarray(K1 * (1 - B + B * lengths / usual), np.float64)


def rarities(having: npt.NDArray[Any], entries: int) -> Floats:
    """The inverse document frequency of each term, of which so many of the entries have it."""
    counts, which = np.unique(having, return_inverse=True)
    # Not numpy's logarithm: its last digit may be another one on another processor.
    rare = [math.log(1 + (entries - count + 0.5) / (count + 0.5)) for count in counts.tolist()]
    return np.array(rare, np.float64)[which]
