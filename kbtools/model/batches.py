"""What comes out for each of many things, kept some of them together: a store asked for each would take longer.

Which of them stand together follows from their names, so that one more or less of them moves no other. A batch is
remembered by all that its members were made from: where one of them changes, all of that batch are made anew.
"""

from __future__ import annotations

import functools
import hashlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any, Final, TypeVar

from kbtools.model.memory import Memory, shaped

T = TypeVar("T")

_LEAST: Final = 256
"""So many batches there are at least: asking for so many takes no time that anyone would notice."""


def in_batches(  # noqa: PLR0913, PLR0917 (what is asked, and how it is made and kept)
    memory: Memory | None,
    work: str,
    asked: Mapping[str, bytes | None],
    make: Callable[[str], T],
    shape: tuple[Callable[[T], Any], Callable[[str, Any], T]],
    together: int = 16,
) -> Iterator[tuple[str, T]]:
    """Name and what comes out for it, in no order that says anything.

    Args:
        memory: asked first; None: all are made.
        work: its name.
        asked: of each name a digest of all that it is made from; None: that is not known, and it is made each time.
        make: makes it.
        shape: what makes JSON of it, and what makes it of its name and that JSON (see `shaped`).
        together: at most about so many are kept together.
    """
    known = {name: digest for name, digest in asked.items() if digest is not None} if memory is not None else {}
    yield from ((name, make(name)) for name in asked if name not in known)
    if memory is None:
        return
    write, read = shape
    for names in _batches(known, together):
        digest = _digest(names, known)
        kept = shaped(memory.worked_out(work, digest), functools.partial(_read, names, read))
        if kept is None:
            kept = [make(name) for name in names]
            memory.keep_worked_out(work, digest, [write(each) for each in kept])
        yield from zip(names, kept, strict=True)


def _read(names: Sequence[str], read: Callable[[str, Any], T], rows: Any) -> list[T]:
    return [read(name, row) for name, row in zip(names, rows, strict=True)]


def _digest(names: Sequence[str], known: Mapping[str, bytes]) -> bytes:
    digest = hashlib.sha256()
    for name in names:
        digest.update(_bytes(name) + b"\0" + known[name])
    return digest.digest()


def _bytes(name: str) -> bytes:
    return name.encode("utf-8", "surrogatepass")


def _batches(names: Mapping[str, bytes], together: int) -> list[Sequence[str]]:
    """The names in a power of two of batches, so that there are others only when there are twice as many names."""
    many = max(_LEAST, 1 << (len(names) // together).bit_length())
    found: dict[int, list[str]] = {}
    for name in names:
        place = int.from_bytes(hashlib.blake2b(_bytes(name), digest_size=4).digest()) % many
        found.setdefault(place, []).append(name)
    return [sorted(each) for each in found.values()]
