"""Which phrases texts lead to, remembered from run to run: most of it, since an edit touches few texts."""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Final, TypeAlias

from kbtools.browser_data.finder.kept_rows import KnownRows, from_json
from kbtools.model.memory import Memory, shaped
from kbtools.vocabulary.whole import Stems

_WORK: Final = "kin"

Way: TypeAlias = tuple[Stems, bool]
"""A phrase that a text leads to, and whether loosely: its words stand in another order, or with others between them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What was worked out before."""

    near: Mapping[Way, Mapping[str, float]] = field(default_factory=dict)
    """Of each way the terms that a text is found by, with their weights."""
    texts: KnownRows = field(default_factory=KnownRows)
    """Of each text its ways, by their places in `near`."""


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
        self._memory.keep_worked_out(_WORK, self._vocabulary, {"near": rows, **found.texts.as_json()})


def _known(kept: Any) -> Known:
    """As it was kept; raises a ValueError where it never was."""
    near = {(tuple(phrase), loosely): found for phrase, loosely, found in kept["near"]}
    weights = list(itertools.chain.from_iterable(found.values() for found in near.values()))
    if (
        len(near) != len(kept["near"])
        or not {type(each) for each in weights} <= {float}
        or not all(0 < each <= 1 for each in weights)
    ):
        raise ValueError
    return Known(near=near, texts=from_json(kept, len(near)))
