"""What several rules need of a knowledge base is worked out once for it, and forgotten with it."""

from __future__ import annotations

import functools
import weakref
from collections.abc import Callable
from typing import TypeVar

from kbtools.model.base import KnowledgeBase

T = TypeVar("T")

_MOST = 4
"""Bases that may be asked about in turns: two states of one, and one of them with a file of the other."""


def per_base(make: Callable[[KnowledgeBase], T]) -> Callable[[KnowledgeBase], T]:
    """Keep what a pure function gives for the last few knowledge bases that it was asked about.

    A base is known again by being the same object. What is kept goes when other bases are asked about, or when nothing
    else holds the base; it must not be changed, since all who ask share it.
    """
    kept: list[tuple[weakref.ref[KnowledgeBase], T]] = []

    @functools.wraps(make)
    def made(base: KnowledgeBase) -> T:
        for known, value in tuple(kept):
            if known() is base:
                return value
        value = make(base)
        kept[:] = [*kept[1 - _MOST :], (weakref.ref(base, forget), value)]
        return value

    def forget(gone: weakref.ref[KnowledgeBase]) -> None:
        kept[:] = [each for each in kept if each[0] is not gone]

    return made
