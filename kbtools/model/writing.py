"""Texts as their authors wrote them, with their places: for rules that look at every text, whatever it is about."""

from __future__ import annotations

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
