"""What something that is said of an entry or a case follows from, as a digest: for whoever keeps it from run to run."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable

from kbtools.index.answers import Index
from kbtools.index.cases import followed
from kbtools.model.case import Case
from kbtools.model.fault import Fault


class SourceDigests:
    """Digests of what entries and cases of a base are read from."""

    def __init__(self, index: Index) -> None:
        self._digests = index.base.digests
        self._followed = followed(index.base)
        # What no entry and no case says: club, systems, access, tools, shared checks, models; and how far these go.
        common = sorted(path for path in self._digests if "/" not in path or path.startswith("models/"))
        self._common = repr([*((path, self._digests[path]) for path in common), *index.years.items()]).encode()

    def of(self, fault: Fault | None, cases: Iterable[Case] = (), more: object = None) -> bytes | None:
        """Of an entry's file and of those of some cases, and of what all entries share.

        Args:
            fault: the entry; None: there is none.
            cases: those that matter, and whether a later one follows them.
            more: what matters besides; its `repr` says all of it.

        Returns:
            None where one of the files is not known.
        """
        digest = hashlib.sha256(self._common)
        digest.update(repr(more).encode())
        named = [
            *(() if fault is None else ((fault.path, False),)),
            *((case.path, case.id in self._followed) for case in cases),
        ]
        for path, is_over in named:
            own = self._digests.get(path)
            if own is None:
                return None
            digest.update(f"\0{path}\0{is_over}\0".encode() + own)
        return digest.digest()
