"""Which phrases texts lead to, remembered from run to run: most of it, since an edit touches few texts."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, TypeAlias

from kbtools.model.memory import Memory, shaped
from kbtools.vocabulary.whole import Stems

_WORK: Final = "kin"

Way: TypeAlias = tuple[Stems, bool]
"""A phrase that a text leads to, and whether loosely: its words stand in another order, or with others between them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What was worked out before."""

    near: Mapping[Way, Mapping[str, float]]
    """Of each way the terms that a text is found by, with their weights."""
    texts: Mapping[str, Sequence[int]]
    """Of each text its ways, by their places in `near`."""


NOTHING_KNOWN: Final = Known(near={}, texts={})


class KeptKin:
    """What a memory knows of a vocabulary."""

    def __init__(self, memory: Memory, vocabulary: bytes) -> None:
        """`vocabulary`: a digest of the club's part of it; ours belongs to the programs."""
        self._memory = memory
        self._vocabulary = vocabulary

    def known(self) -> Known | None:
        """What is remembered; None where nothing is, or nothing of use."""
        return shaped(self._memory.worked_out(_WORK, self._vocabulary), _known)

    def keep(self, found: Known) -> None:
        """Remember this in place of what is remembered."""
        rows = [[phrase, loosely, near] for (phrase, loosely), near in found.near.items()]
        self._memory.keep_worked_out(_WORK, self._vocabulary, {"near": rows, "texts": found.texts})


def _known(kept: Any) -> Known:
    """As it was kept; raises a ValueError where it never was."""
    near = {(tuple(phrase), loosely): found for phrase, loosely, found in kept["near"]}
    texts: dict[str, list[int]] = kept["texts"]
    weights = list(itertools.chain.from_iterable(found.values() for found in near.values()))
    ways = list(itertools.chain.from_iterable(texts.values()))
    if (
        len(near) != len(kept["near"])
        or not {type(each) for each in weights} <= {float}
        or not {type(each) for each in ways} <= {int}
        or not all(0 < each <= 1 for each in weights)
        or (ways and not 0 <= min(ways) <= max(ways) < len(near))
    ):
        raise ValueError
    return Known(near=near, texts=texts)
