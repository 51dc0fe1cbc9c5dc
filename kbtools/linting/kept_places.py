"""Where breaches stand, kept: to find a place in a file, the file is parsed again."""

from __future__ import annotations

from typing import Final

from kbtools.diagnostics import START, Mark
from kbtools.index.narrowed import lists_digest
from kbtools.linting.one_rule import mark_of
from kbtools.model.memory import Memory
from kbtools.model.pool import Pool, key
from kbtools.reading.reader import Reading
from kbtools.rules.rule import Breach

_WORK: Final = "places of findings"


class KeptPlaces:
    """Places in the files of one reading, by what the files hold."""

    def __init__(self, reading: Reading, memory: Memory | None) -> None:
        self._documents, self._digests = reading.documents, reading.base.digests
        self._memory = memory
        self._pool = Pool(memory, _WORK, lists_digest(reading.base) if memory is not None else b"")

    def mark(self, found: Breach) -> Mark:
        """Where a breach stands."""
        document = self._documents.get(found.path)
        if self._memory is None or document is None or found.index is not None or found.pointer == "":
            return mark_of(found, document)
        wanted = f"{found.at_key}\0{found.pointer}\0{found.piece}"
        # The path as well: it decides whether pointers lead into the file.
        name = key(found.path.encode(), self._digests[found.path], wanted.encode())
        if name not in self._pool:
            mark = mark_of(found, document)
            self._pool.put(name, None if mark == START else [mark.line, mark.column])
            return mark
        row = self._pool.get(name)
        return START if row is None else Mark(line=row[0], column=row[1])

    def keep(self) -> None:
        """Hand what is new to the memory."""
        self._pool.keep()
