"""What is asked, and a knowledge base that notes it."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping, Set
from contextlib import contextmanager
from dataclasses import dataclass, fields
from typing import Any, Final, TypeVar

from kbtools.model.base import HandPage, KnowledgeBase

K = TypeVar("K")
V = TypeVar("V")


class Everything:
    """The key of a question about all of a mapping."""

    def __repr__(self) -> str:
        return "(everything)"


EVERYTHING: Final = Everything()

Question = tuple[str, Hashable]
"""What was asked, and of which key; `EVERYTHING` for all of it."""


class Log:
    """Notes the questions of whoever is listened to."""

    def __init__(self) -> None:
        self.now: set[Question] | None = None
        """The questions of whoever is listened to now; None: nobody is."""
        self.derived: dict[str, Any] = {}
        """What is worked out of answers and asked for in its turn (`kbtools.index.asked.Derived`), by name."""

    def note(self, name: str, key: Hashable) -> None:
        """A question was asked."""
        if self.now is not None:
            self.now.add((name, key))

    def add(self, questions: frozenset[Question]) -> None:
        """What is used now was made from the answers to these questions."""
        if self.now is not None:
            self.now |= questions

    @contextmanager
    def listening(self) -> Iterator[set[Question]]:
        """The questions that are asked meanwhile; none of them counts for whoever was listened to before."""
        asked: set[Question] = set()
        before, self.now = self.now, asked
        try:
            yield asked
        finally:
            self.now = before


class AskedMapping(Mapping[K, V]):
    """A mapping that notes who is asked for. Whoever goes through it has asked for all of it."""

    __slots__ = ("_has", "_log", "_name", "_values")

    def __init__(self, name: str, values: Mapping[K, V], log: Log) -> None:
        self._name = name
        self._has = f"{name} has"
        self._values = values
        self._log = log

    # Pages ask a million times: what `Log.note` does is done here.
    def __getitem__(self, key: K) -> V:
        if (now := self._log.now) is not None:
            now.add((self._name, key))
        return self._values[key]

    def get(self, key: K, default: Any = None) -> Any:
        """As of any mapping."""
        if (now := self._log.now) is not None:
            now.add((self._name, key))
        return self._values.get(key, default)

    def __contains__(self, key: object) -> bool:
        if (now := self._log.now) is not None:
            now.add((self._has, key))
        return key in self._values

    def __iter__(self) -> Iterator[K]:
        self._log.note(self._name, EVERYTHING)
        return iter(self._values)

    def __len__(self) -> int:
        self._log.note(self._name, EVERYTHING)
        return len(self._values)


class AskedSet(Set[K]):
    """A set that notes likewise."""

    __slots__ = ("_has", "_log", "_name", "_values")

    def __init__(self, name: str, values: Set[K], log: Log) -> None:
        self._name = name
        self._has = f"{name} has"
        self._values = values
        self._log = log

    def __contains__(self, key: object) -> bool:
        self._log.note(self._has, key)
        return key in self._values

    def __iter__(self) -> Iterator[K]:
        self._log.note(self._name, EVERYTHING)
        return iter(self._values)

    def __len__(self) -> int:
        self._log.note(self._name, EVERYTHING)
        return len(self._values)


class _Closed:
    """Stands in for what no page is made from: whoever asks for it nevertheless is told, since nobody would note it."""

    def __init__(self, name: str) -> None:
        self._name = name

    def _refuse(self, *_: object) -> Any:
        raise LookupError(f"a page asks for {self._name}, which is not noted; ask the index, or let it be noted")

    __iter__ = __len__ = __contains__ = __bool__ = __getitem__ = _refuse


_OF_ALL: Final = frozenset({"club", "words", "stop_now", "tables"})
"""What may be in every page: it is not asked for one by one, but counts for all (`of_all`)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedBase(KnowledgeBase):
    """A knowledge base that notes what it is asked; `per_base` functions answer from the original, and are noted."""

    original: KnowledgeBase
    """What it answers from."""
    log: Log
    """Where questions are noted."""


def asked_base(base: KnowledgeBase, log: Log) -> AskedBase:
    """The base, with its mappings noting what they are asked."""
    given: dict[str, Any] = {}
    for field in fields(KnowledgeBase):
        value = getattr(base, field.name)
        if field.name == "pages":
            # Whether a page is there may be asked; what it says is nobody's business but its own.
            given["pages"] = tuple(HandPage(path=each.path, text="", body="") for each in value)
        elif field.name in _OF_ALL:
            given[field.name] = value
        elif isinstance(value, Mapping) and field.name != "digests":
            given[field.name] = AskedMapping(f"base.{field.name}", value, log)
        else:
            given[field.name] = _Closed(field.name)
    return AskedBase(**given, original=base, log=log)


def of_all(base: KnowledgeBase) -> tuple[object, ...]:
    """What may be in every page, for a digest."""
    return (*(getattr(base, each) for each in sorted(_OF_ALL - {"tables"})), [each.path for each in base.pages])
