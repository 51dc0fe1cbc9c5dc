"""Did you mean: the nearest of several names."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from rapidfuzz import process
from rapidfuzz.distance import DamerauLevenshtein, JaroWinkler

_ALIKE = 0.84
"""Jaro-Winkler similarity from which a guess helps more than it misleads."""


def did_you_mean(word: str, names: Iterable[str]) -> str | None:
    """The name that the author probably meant, None where none is near.

    A different upper case counts as nothing, one slip of the keys (also two letters swapped) always as near.
    """
    folded = {name.casefold(): name for name in names}
    typed = word.casefold()[:200]
    if typed in folded:
        return folded[typed]
    best = process.extractOne(typed, list(folded), scorer=JaroWinkler.similarity, score_cutoff=_ALIKE)
    if best is not None:
        return folded[best[0]]
    slip = process.extractOne(typed, list(folded), scorer=DamerauLevenshtein.distance, score_cutoff=1)
    return folded[slip[0]] if slip is not None and len(typed) > 2 else None


def nearest_id(word: str, names: Mapping[str, Sequence[str]]) -> str | None:
    """The id that the author probably meant: whose name was written, else the nearest id, else the nearest name.

    Args:
        word: what the author wrote.
        names: id to the names that it goes by.
    """
    by_name = {name: identity for identity, each in names.items() for name in each}
    typed = word.casefold()
    written = next((identity for name, identity in by_name.items() if name.casefold() == typed), None)
    if written is not None:
        return written
    by_id = did_you_mean(word, names)
    if by_id is not None:
        return by_id
    guess = did_you_mean(word.replace("-", " "), by_name)
    return by_name[guess] if guess is not None else None
