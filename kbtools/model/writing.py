"""Texts as their authors wrote them, with their places: for rules that look at every text, whatever it is about."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

TextKind = Literal["words", "link", "key", "page", "comment", "id"]
"""Words of the author; the address of a link; a key where the format leaves the keys to the author; a whole page; a
comment of a YAML file; an id that the author made up, or the name of a file or folder (its pointer is empty)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Writing:
    """The texts of one kind in one file.

    Texts and pointers stand beside each other in two lists: a base has a hundred thousand of them, and pairs would take
    several times the memory.
    """

    path: str
    """File of the knowledge base, relative to its folder."""
    kind: TextKind
    """What the texts are."""
    texts: tuple[str, ...]
    """In file order, hostile."""
    pointers: tuple[str, ...]
    """JSON pointer of each text; empty for a page, a comment and the name of a file."""
    starts: tuple[int, ...] = ()
    """Of pages and comments: where in the file each text starts, counted in code points from 0; else empty."""


class Writings:
    """The texts of many files, in the order of the files; those of some are made only when somebody asks for them.

    After an edit nearly nobody does: each rule that looks at texts is asked about the edited file alone.
    """

    __slots__ = ("_known", "_later")

    def __init__(
        self,
        known: Mapping[str, Sequence[Writing] | None],
        later: Callable[[Sequence[str]], Mapping[str, Sequence[Writing]]] | None = None,
    ) -> None:
        """Begin with what is known.

        Args:
            known: the texts of each file, by its path. None: they are not made yet, and link nowhere.
            later: makes them, of files that are named, in any order.
        """
        self._known = dict(known)
        self._later = later

    def of(self, wanted: Callable[[str], bool]) -> Writings:
        """Those of the files whose paths are wanted."""
        paths = [path for path in self._known if wanted(path)]
        self._make(paths)
        return Writings({path: self._known[path] for path in paths})

    def settled(self) -> Writings:
        """The same without what later ones are made from, which takes room: only those that are made are there."""
        return Writings(self._known)

    def that_may_link(self) -> Iterator[Writing]:
        """Those of the files that may hold an address of the web; all others hold none."""
        return itertools.chain.from_iterable(each for each in self._known.values() if each is not None)

    def __iter__(self) -> Iterator[Writing]:
        self._make(list(self._known))
        return self.that_may_link()

    def __eq__(self, other: object) -> bool:
        return tuple(self) == tuple(other) if isinstance(other, Writings) else NotImplemented

    __hash__ = None  # type: ignore[assignment]

    def _make(self, paths: Sequence[str]) -> None:
        lacking = [path for path in paths if self._known[path] is None]
        if not lacking:
            return
        if self._later is None:
            raise LookupError("these texts were let go: who reads them has to do so while the base is checked")
        self._known |= self._later(lacking)
