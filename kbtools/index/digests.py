"""Digests of answers: equal digests, equal answers. What cannot be told has none, and counts as another each time."""

from __future__ import annotations

import pickle
from collections.abc import Hashable, Mapping
from dataclasses import fields, is_dataclass
from hashlib import blake2b
from operator import attrgetter
from types import FunctionType, MappingProxyType
from typing import Any, Final

from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.catalogue import Component, Model, System
from kbtools.model.fault import Fault
from kbtools.model.shared import SharedCheck

ENTITIES: Final = (Fault, Case, Model, System, Component, SharedCheck)
"""What stands in many answers, and is digested once."""
_BYTES = 12
_ENTRIES: Final = ("faults/", "cases/")


class Digests:
    """Digests values; of entities each once, so they must live as long as this does."""

    def __init__(self, entries: Mapping[str, str] | None = None, files: Mapping[str, str] | None = None) -> None:
        """Begin with what is known of entries.

        Args:
            entries: digest of an entry, by a digest of all that it was read from.
            files: path of an entry's file → that digest.
        """
        self._known: dict[int, tuple[object, str]] = {}
        self._entries = entries or {}
        self._files = files or {}
        self.entries: dict[str, str] = {}
        """Those that were asked for, likewise by what they were read from."""

    def of(self, value: object) -> str | None:
        """A digest of a value by its content alone; None where it holds something that cannot be told."""
        if type(value) in ENTITIES:
            known = self._known.get(id(value))
            if known is None:
                known = self._known[id(value)] = (value, self._of_entity(value))
            return known[1]
        if type(value) in {frozenset, set}:
            value = sorted(map(repr, value))  # type: ignore[call-overload]
        try:
            return self._written(value)
        except (pickle.PicklingError, TypeError, AttributeError, ValueError):
            return None

    def _of_entity(self, value: object) -> str:
        read_from = self._files.get(value.path) if isinstance(value, Fault | Case) else None
        if read_from is None:
            return self._written(value)
        digest = self.entries[read_from] = self._entries.get(read_from) or self._written(value)
        return digest

    def _written(self, value: object) -> str:
        digest = _Sink()
        _Writer(digest, self, value).dump(value)
        return digest.hexdigest()


def read_from(base: KnowledgeBase) -> dict[str, str]:
    """Path of each entry's file → a digest of all that the entry was read from: its file, and those of no entry.

    An entry is made of its own file and of what all share, such as the shared checks; never of another entry.
    """
    shared = blake2b(digest_size=_BYTES)
    for path, digest in sorted(base.digests.items()):
        if not path.startswith(_ENTRIES):
            shared.update(f"{path}\0".encode() + digest)
    common = shared.digest()
    return {
        path: blake2b(common + digest, digest_size=_BYTES).hexdigest()
        for path, digest in base.digests.items()
        if path.startswith(_ENTRIES)
    }


class _Sink:
    """Takes what is written into a digest."""

    def __init__(self) -> None:
        self._digest = blake2b(digest_size=_BYTES)
        self.write = self._digest.update
        self.hexdigest = self._digest.hexdigest


class _Writer(pickle.Pickler):
    """Writes values for a digest; nobody ever reads it back."""

    def __init__(self, out: _Sink, digests: Digests, root: object) -> None:
        super().__init__(out, 5)
        # Without memory of what it has written: whether two equal parts are one object is no part of the content.
        self.fast = True
        self._digests = digests
        self._root = root

    def reducer_override(self, obj: Any) -> Any:
        """An entity by its digest, a dataclass by its fields, a set in order."""
        kind = type(obj)
        if kind in ENTITIES and obj is not self._root:
            return _entity, (self._digests.of(obj),)
        if isinstance(obj, FunctionType) and obj is not _shape and obj is not _entity:
            # Ours: it is what its name says as long as the programs are the same.
            return _shape, ("function", obj.__module__, obj.__qualname__)
        if isinstance(obj, type | FunctionType):
            return NotImplemented
        if is_dataclass(kind):
            return _shape, (kind.__qualname__, *_ordered(_values(obj, kind)))
        if kind is MappingProxyType or (isinstance(obj, Mapping) and kind is not dict):
            return _shape, ("mapping", *_ordered(obj.items()))
        return NotImplemented


_GETTERS: Final[dict[type, Any]] = {}


def _values(obj: object, kind: Any) -> tuple[object, ...]:
    getter = _GETTERS.get(kind)
    if getter is None:
        names = [each.name for each in fields(kind)]
        # One name alone would give its value bare.
        getter = _GETTERS[kind] = attrgetter(*names, "__class__") if names else lambda _: ()
    return tuple(getter(obj))[: -1 or None]


def _ordered(values: Any) -> Any:
    return (tuple(sorted(map(repr, each))) if type(each) in {frozenset, set} else each for each in values)


def _entity(digest: str) -> str:
    return digest


def _shape(*parts: object) -> object:
    return parts


def key_text(key: Hashable) -> str:
    """A key as it is kept: the same text, the same key."""
    return repr(key)
