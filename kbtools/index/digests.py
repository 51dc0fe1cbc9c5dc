"""Digests of answers: equal digests, equal answers. What cannot be told has none, and counts as another each time."""

from __future__ import annotations

import pickle
from collections.abc import Callable, Hashable, Mapping
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
        self._idle: list[_Writer] = []

    def know(self, entries: Mapping[str, str]) -> None:
        """Take over what somebody has found out about entries; with those known before they count as asked for."""
        known = ((each, entries.get(each) or self._entries.get(each)) for each in self._files.values())
        self.entries.update({each: digest for each, digest in known if digest is not None})

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
        # One that is busy writes what another entity stands in.
        writer = self._idle.pop() if self._idle else _Writer(self, pickle.Pickler)
        try:
            digest = writer.digest(value)
        except (pickle.PicklingError, AttributeError):
            # A function that no module has by its name.
            return _Writer(self, _WithFunctions).digest(value)
        self._idle.append(writer)
        return digest


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


class _Writer:
    """Writes values for a digest; nobody ever reads it back."""

    def __init__(self, digests: Digests, kind: type[pickle.Pickler]) -> None:
        self._written: list[bytes] = []
        self.write = self._written.append
        self._pickler = kind(self, 5)
        # Without memory of what it has written: whether two equal parts are one object is no part of the content.
        self._pickler.fast = True
        self._pickler.dispatch_table = _Parts(digests)

    def digest(self, value: object) -> str:
        """Of a value; whoever meets an error must not use this writer again."""
        self._pickler.dump(_parts_of(value) if type(value) in ENTITIES else value)
        digest = blake2b(b"".join(self._written), digest_size=_BYTES).hexdigest()
        self._written.clear()
        return digest


class _WithFunctions(pickle.Pickler):
    """Writes functions by their names, since they are what these say as long as the programs are the same."""

    def reducer_override(self, obj: Any) -> Any:
        """What is written of a function; all else as ever."""
        if type(obj) is FunctionType and obj is not _shape:
            return _shape, ("function", obj.__module__, obj.__qualname__)
        return NotImplemented


class _Parts(dict[type, Callable[[Any], Any]]):
    """What is written of a value, by its type: an entity by its digest, a dataclass by its fields, sets in order."""

    def __init__(self, digests: Digests) -> None:
        super().__init__()
        self._digests = digests

    def __missing__(self, kind: type) -> Callable[[Any], Any]:
        made = self[kind] = self._made(kind)
        return made

    def _made(self, kind: type) -> Callable[[Any], Any]:
        if kind in ENTITIES:
            return lambda obj: (_shape, (self._digests.of(obj),))
        if is_dataclass(kind):
            return lambda obj: (_shape, _parts_of(obj))
        if kind is MappingProxyType or issubclass(kind, Mapping):
            return lambda obj: (_shape, ("mapping", *_ordered(tuple(obj.items()))))
        # Pickle's own way.
        raise KeyError(kind)


_GETTERS: Final[dict[type, Callable[[Any], tuple[Any, ...]]]] = {}
_SETS: Final = frozenset({frozenset, set})


def _parts_of(obj: object) -> tuple[object, ...]:
    """The name of a dataclass, and its fields."""
    kind: Any = type(obj)
    getter = _GETTERS.get(kind)
    if getter is None:
        # Its name is one part in any case, so that one field alone comes in a tuple as well.
        getter = _GETTERS[kind] = attrgetter("__class__.__qualname__", *(each.name for each in fields(kind)))
    return _ordered(getter(obj))


def _ordered(values: tuple[Any, ...]) -> tuple[Any, ...]:
    if _SETS.isdisjoint(map(type, values)):
        return values
    return tuple(tuple(sorted(map(repr, each))) if type(each) in _SETS else each for each in values)


def _shape(*parts: object) -> object:
    return parts


def key_text(key: Hashable) -> str:
    """A key as it is kept: the same text, the same key."""
    return repr(key)
