"""Which words of a base are probably the same word with a slip of the keys."""

from __future__ import annotations

import functools
from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping

from rapidfuzz.distance import OSA

_SHORTEST = 4
"""Shorter words are one slip away from too many others."""
_LONG = 8
"""From here on two slips are forgiven."""
_LONGEST = 24
"""A longer word has too many rests (they grow with the square), and is copied rather than typed."""
_MOST = 40
"""A group of words that share a rest is looked at up to this size; such a rest tells nothing."""


def near_words(
    words: Collection[str], settled: Collection[str] = (), forms: Collection[str] = ()
) -> Mapping[str, frozenset[str]]:
    """Each word that has near ones, with them. One slip is a letter more, less or other, or two letters swapped.

    The work grows with the number of words, not with its square: two words within one slip share a rest when a letter
    is left out of each, so only words with a common rest are compared. Beginnings must agree in one of the first two
    letters, since few people miss both.

    Args:
        words: the words of the base.
        settled: words that are known to be meant as they stand, so that none of them is taken for another one of them.
            Their rests are kept for the next base.
        forms: words of this base alone that are meant as they stand too.
    """
    meant, too = _kept_by_rest(frozenset(settled)), _by_rest({*forms} - {*settled})
    known = {*settled, *forms}
    own: defaultdict[str, list[str]] = defaultdict(list)
    for word in words:
        if _SHORTEST <= len(word) <= _LONGEST and word.isalpha() and word not in known:
            for rest in _rests(word):
                own[rest].append(word)
    found: defaultdict[str, set[str]] = defaultdict(set)
    for rest, group in own.items():
        others = (*meant.get(rest, ()), *too.get(rest, ()))
        if 1 < len(group) + len(others) <= _MOST:
            for place, left in enumerate(group):
                for right in (*group[:place], *others):
                    if left != right and right not in found[left] and _near(left, right):
                        found[left].add(right)
                        found[right].add(left)
    return {word: frozenset(near) for word, near in found.items() if near}


@functools.lru_cache(maxsize=2)
def _kept_by_rest(settled: frozenset[str]) -> Mapping[str, tuple[str, ...]]:
    """Rest → the words of a table that have it; kept, since our own tables stay what they are."""
    return _by_rest(settled)


def _by_rest(words: Collection[str]) -> Mapping[str, tuple[str, ...]]:
    found: defaultdict[str, list[str]] = defaultdict(list)
    for word in sorted(words):
        if _SHORTEST <= len(word) <= _LONGEST and word.isalpha():
            for rest in _rests(word):
                found[rest].append(word)
    return {rest: tuple(words) for rest, words in found.items()}


def _rests(word: str) -> Iterable[str]:
    rests = {word, *(word[:at] + word[at + 1 :] for at in range(len(word)))}
    if len(word) >= _LONG:
        rests |= {rest[:at] + rest[at + 1 :] for rest in tuple(rests) for at in range(len(rest))}
    return rests


def _near(left: str, right: str) -> bool:
    if left[0] != right[0] and left[1:2] != right[1:2]:
        return False
    slips = 2 if min(len(left), len(right)) >= _LONG else 1
    distance = OSA.distance(left, right, score_cutoff=slips)
    if distance > slips:
        return False
    # Of short words only a swap or a letter more or less is forgiven: `lean` and `leak` are two words.
    return min(len(left), len(right)) > _SHORTEST or len(left) != len(right) or sorted(left) == sorted(right)
