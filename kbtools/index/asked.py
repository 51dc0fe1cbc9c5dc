"""An index that notes what it is asked, and the answers to the same questions of another day.

Whatever is made from answers is as it was if all of them are: so a page need not be made again. Nothing is guessed, and
nobody writes down by hand what depends on what.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Hashable, Iterator, Mapping, Set
from typing import Any, Final, Generic, TypeVar

from kbtools.index.answers import Index
from kbtools.index.asked_base import EVERYTHING, AskedMapping, Log, Question, asked_base
from kbtools.index.digests import Digests, key_text, read_from
from kbtools.index.per_base import BY_NAME

K = TypeVar("K", bound=Hashable)
V = TypeVar("V")

ABSENT: Final = "-"
"""In the place of a digest: there was no such key."""


def asked_index(index: Index, log: Log) -> Index:
    """The index, noting in the log what it is asked."""
    given: dict[str, Any] = {"base": asked_base(index.base, log)}
    for field in dataclasses.fields(Index):
        value = getattr(index, field.name)
        if isinstance(value, Mapping):
            given[field.name] = AskedMapping(field.name, value, log)
    return dataclasses.replace(index, **given)


class Memo(Generic[V]):
    """What several pages are made from, made once: who uses it has asked what it took."""

    def __init__(self, log: Log, most: int | None = None) -> None:
        """`most` are kept at once, those that were used last; None: all."""
        self._log = log
        self._most = most
        self._made: dict[Hashable, tuple[V, frozenset[Question]]] = {}

    def of(self, key: Hashable, make: Callable[[], V]) -> V:
        """What was made for a key, or is made now."""
        known = self._made.pop(key, None)
        if known is None:
            with self._log.listening() as asked:
                value = make()
            known = (value, frozenset(asked))
            if self._most is not None and len(self._made) >= self._most:
                del self._made[next(iter(self._made))]
        self._made[key] = known
        self._log.add(known[1])
        return known[0]


class _ByKey(Mapping[K, V]):
    """A mapping of what is made when it is asked for; nobody goes through it."""

    def __iter__(self) -> Iterator[K]:
        raise TypeError("only single keys are asked for")

    def __len__(self) -> int:
        raise TypeError("only single keys are asked for")


class Shared(_ByKey[K, V]):
    """A memo that knows how its values are made."""

    def __init__(self, make: Callable[[K], V], log: Log, most: int | None = None) -> None:
        """`most` are kept at once, those that were used last; None: all."""
        self._make = make
        self._memo: Memo[V] = Memo(log, most)

    def __getitem__(self, key: K) -> V:
        return self._memo.of(key, lambda: self._make(key))


class Derived(_ByKey[K, V]):
    """Something worked out of answers, that is asked for in its turn.

    Who asks for it depends on what came out, not on what it was worked out from: the number of a fault in a handbook
    stays when the fault's text changes.
    """

    def __init__(self, name: str, make: Callable[[K], V], log: Log) -> None:
        """`make` works it out; the log is told that it is asked for under the name."""
        self.name = name
        self._make = make
        self._log = log
        self._made: dict[K, tuple[V, frozenset[Question]]] = {}
        log.derived[name] = self

    def __getitem__(self, key: K) -> V:
        value, _ = self.worked_out(key)
        self._log.note(self.name, key)
        return value

    def worked_out(self, key: K) -> tuple[V, frozenset[Question]]:
        """What came out, and the questions that it took."""
        if key not in self._made:
            with self._log.listening() as asked:
                value = self._make(key)
            self._made[key] = (value, frozenset(asked))
        return self._made[key]

    def made(self) -> Mapping[K, tuple[V, frozenset[Question]]]:
        """All that was worked out so far."""
        return self._made


class Answers:
    """The digests of the answers to questions, as a base and what was handed in give them now."""

    def __init__(
        self, index: Index, others: Mapping[str, Mapping[Any, Any]], entries: Mapping[str, str] | None = None
    ) -> None:
        """`others` are mappings beside the index that notes are taken of, by name; `entries` as of `Digests`."""
        self._index = index
        self._others = others
        self._digests = Digests(entries, read_from(index.base))
        self._sources: dict[str, Any] = {}
        self._rows: dict[str, Mapping[str, Any]] = {}
        self._known: dict[tuple[str, str], str | None] = {}

    def digest(self, name: str, key: str) -> str | None:
        """The digest of an answer, by the key's text (`key_text`); None where it cannot be told."""
        known = (name, key)
        if known not in self._known:
            self._known[known] = self._digest(name, key)
        return self._known[known]

    def know(self, digests: Mapping[tuple[str, str], str | None], entries: Mapping[str, str]) -> None:
        """Take over what somebody has found out: digests of answers, and of entries that were not known."""
        self._known.update(digests)
        self._digests.know(entries)

    @property
    def entries(self) -> Mapping[str, str]:
        """The digests of entries that were asked for, by what they were read from."""
        return self._digests.entries

    def digest_of(self, value: object) -> str | None:
        """The digest of any value."""
        return self._digests.of(value)

    def _digest(self, name: str, key: str) -> str | None:
        of = name.removesuffix(" has")
        if of not in self._sources:
            self._sources[of] = self._source(of)
        source = self._sources[of]
        if source is None:
            return None
        if of != name:
            return str(key in self._row(of, source))
        if key == key_text(EVERYTHING):
            return self._whole(name, source) if isinstance(source, Mapping) else self._digests.of(source)
        row = self._row(name, source)
        return self._digests.of(row[key]) if key in row else ABSENT

    def _whole(self, name: str, source: Mapping[Any, Any]) -> str | None:
        """Of all answers in their order; most of them are asked for one by one as well."""
        found = [(key, self.digest(name, key)) for key in self._row(name, source)]
        return None if any(digest is None for _, digest in found) else self._digests.of(found)

    def _row(self, name: str, source: Mapping[Any, Any] | Set[Any]) -> Mapping[str, Any]:
        row = self._rows.get(name)
        if row is None:
            pairs = source.items() if isinstance(source, Mapping) else dict.fromkeys(source).items()
            row = self._rows[name] = {key_text(key): value for key, value in pairs}
        return row

    def _source(self, name: str) -> Any:
        if name in self._others:
            return self._others[name]
        if name.startswith("base."):
            return getattr(self._index.base, name.removeprefix("base."), None)
        if name in BY_NAME:
            return BY_NAME[name](self._index.base)
        return getattr(self._index, name, None)
