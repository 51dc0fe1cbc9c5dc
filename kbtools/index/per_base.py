"""What several rules need of a knowledge base is worked out once for it, and forgotten with it."""

from __future__ import annotations

import functools
import weakref
from collections.abc import Callable, Mapping
from typing import Any, Final, TypeVar, cast

from kbtools.index.asked_base import EVERYTHING, AskedBase, AskedMapping, AskedSet
from kbtools.model.base import KnowledgeBase

T = TypeVar("T")

_MOST = 4
"""Bases that may be asked about in turns: two states of one, and one of them with a file of the other."""

BY_NAME: Final[dict[str, Callable[[KnowledgeBase], Any]]] = {}
"""The functions that are kept for each base, by the name under which it is noted that they were asked."""


def per_base(make: Callable[[KnowledgeBase], T]) -> Callable[[KnowledgeBase], T]:
    """Keep what a pure function gives for the last few knowledge bases that it was asked about.

    A base is known again by being the same object. What is kept goes when other bases are asked about, or when nothing
    else holds the base; it must not be changed, since all who ask share it. A base that notes what it is asked is
    answered from the original: a mapping or a set notes in turn which of its keys are asked for, anything else is noted
    whole.
    """
    kept: list[tuple[weakref.ref[KnowledgeBase], T]] = []
    name = f"{make.__module__}.{make.__qualname__}"

    @functools.wraps(make)
    def made(base: KnowledgeBase) -> T:
        if isinstance(base, AskedBase):
            return _noted(name, made(base.original), base)
        for known, value in tuple(kept):
            if known() is base:
                return value
        value = make(base)
        kept[:] = [*kept[1 - _MOST :], (weakref.ref(base, forget), value)]
        return value

    def forget(gone: weakref.ref[KnowledgeBase]) -> None:
        kept[:] = [each for each in kept if each[0] is not gone]

    BY_NAME[name] = made
    return made


def _noted(name: str, value: T, base: AskedBase) -> T:
    if isinstance(value, Mapping):
        return cast(T, AskedMapping(name, value, base.log))
    if isinstance(value, frozenset):
        return cast(T, AskedSet(name, value, base.log))
    base.log.note(name, EVERYTHING)
    return value
