"""By which faults are found: the words, codes and parts of each, alone and in pairs, as numbers.

A fault has hundreds of keys. As numbers of 64 bits they take a tenth of the memory, and can be kept as they are. Two
keys share a number by chance once in some billion bases, and then two faults more are compared.
"""

from __future__ import annotations

import functools
import hashlib
from array import array
from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Final

from kbtools.model.fault import Fault
from kbtools.similarity.lexicon import Lexicon
from kbtools.similarity.ready import ReadyCode, SaidCause, SaidWords

_MOST_SYMPTOMS, _MOST_WORDS = 50, 24
"""By so many symptoms, and so many telling words of each, an entry is found: pairs of words grow with the square, and
nobody writes half of that."""
_FACTOR: Final = 0x9E3779B97F4A7C15
_BITS: Final = (1 << 64) - 1

Key = str | tuple[str | int | None, ...]
"""A word, or several things that stand together."""


def keys_of(
    fault: Fault, title: SaidWords, causes: Sequence[SaidCause], codes: Sequence[ReadyCode], lexicon: Lexicon
) -> array[int]:
    """The keys of a fault, each once, in the order in which they count."""
    return array("Q", dict.fromkeys(map(_number, _keys(fault, title, causes, codes, lexicon))))


def _number(key: Key) -> int:
    if isinstance(key, str):
        return _number_of(key)
    number = len(key)
    for part in key:
        number = (number * _FACTOR + _number_of(part)) & _BITS
    return number


@functools.lru_cache(maxsize=65536)
def _number_of(part: str | int | None) -> int:
    return int.from_bytes(hashlib.blake2b(repr(part).encode(), digest_size=8).digest())


def _keys(
    fault: Fault, title: SaidWords, causes: Sequence[SaidCause], codes: Sequence[ReadyCode], lexicon: Lexicon
) -> Iterator[Key]:
    words = [*title.words]
    yield from words
    for word in words:
        # Sorted, since a set has an order of its own in each run.
        yield from sorted(lexicon.near(word))
    yield from (("g", group) for group in lexicon.groups([fault.title]))
    yield from combinations(sorted(words), 2)
    for text in fault.symptoms[:_MOST_SYMPTOMS]:
        told = lexicon.words([text])[:_MOST_WORDS]
        yield from told
        yield from (("s", *sorted(pair)) for pair in combinations(dict.fromkeys(told), 2))
    for code in codes:
        yield ("code", code.base)
        yield ("code", code.base, code.unit)
    components = sorted({cause.component for cause in causes if cause.component is not None})
    for cause in causes:
        for word in cause.words.words:
            yield word
            yield ("c", cause.component, word)
    yield from combinations(components, 2)
    for component in components:
        yield from (("m", component, row.model) for row in fault.applies_to)
        yield from (("w", component, word) for word in words)
