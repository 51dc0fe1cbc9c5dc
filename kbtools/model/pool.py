"""Many small values that were worked out, kept in one row of a memory.

Twenty-five thousand rows of a store take longer to ask for than what most of them hold took to work out. A pool is one
row: read once, and written anew when something in it has changed. What nobody asked for since it was read is left out
then, so it does not grow with the years.
"""

from __future__ import annotations

import base64
import binascii
import hashlib
from collections.abc import Iterable
from typing import Any, Final

from kbtools.model.memory import Memory

KEY_BYTES: Final = 16
"""Of a key's digest: two different values never share one."""


def key(*parts: bytes) -> bytes:
    """The key of a value: a digest of everything that it is made from."""
    digest = hashlib.blake2b(digest_size=KEY_BYTES)
    for part in parts:
        digest.update(len(part).to_bytes(8, "big") + part)
    return digest.digest()


class Pool:
    """Values by the digests of what they were made from. Without a memory nothing is known, and nothing kept."""

    __slots__ = ("_asked", "_bare", "_memory", "_more", "_new", "_used", "_work", "_written")

    def __init__(self, memory: Memory | None, work: str, asked: bytes) -> None:
        """Read it.

        Args:
            memory: that holds it.
            work: the name of what is worked out.
            asked: tells pools of one name apart, of two clubs for instance. No value may depend on it: a key names all
                that its value is made from.
        """
        self._memory, self._work, self._asked = memory, work, asked
        self._new = False
        self._used: set[bytes] = set()
        self._written: int | None = None
        row = memory.worked_out(work, asked) if memory is not None else None
        self._bare, self._more = _unpacked(row)

    def __contains__(self, name: bytes) -> bool:
        return name in self._bare or name in self._more

    def get(self, name: bytes) -> Any:
        """The value of a key that is in the pool: JSON; None where it says nothing."""
        self._used.add(name)
        return self._more.get(name)

    def put(self, name: bytes, value: Any) -> None:
        """Take in what JSON can hold; None takes least room."""
        self._new = True
        self._used.add(name)
        if value is None:
            self._bare.add(name)
        else:
            self._more[name] = value

    def keep(self) -> None:
        """Hand what was asked for or is new back to the memory, if anything is new or was left out the last time."""
        if self._memory is None or not (self._new or self._written not in {None, len(self._used)}):
            return
        self._new, self._written = False, len(self._used)
        bare = b"".join(sorted(self._bare & self._used))
        more = {name.hex(): value for name, value in self._more.items() if name in self._used}
        self._memory.keep_worked_out(self._work, self._asked, {"bare": base64.b64encode(bare).decode(), "more": more})


def _unpacked(row: Any) -> tuple[set[bytes], dict[bytes, Any]]:
    if row is None:
        return set(), {}
    try:
        bare = base64.b64decode(row["bare"], validate=True)
        return set(_cut(bare)), {bytes.fromhex(name): value for name, value in row["more"].items()}
    except (binascii.Error, ValueError):
        return set(), {}


def _cut(packed: bytes) -> Iterable[bytes]:
    return (packed[at : at + KEY_BYTES] for at in range(0, len(packed), KEY_BYTES))
