"""What changes with each build and stands in every page: it is put in last, so that the rest of a page can be kept.

A page is made with marks in the place of these values, and it is kept where they stood. So of a page that stands there
already the old values are exchanged for the new ones, and what it says itself stays, even where it reads like one.
"""

from __future__ import annotations

import re
import secrets
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from hashlib import sha256
from itertools import accumulate, zip_longest


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamps:
    """The values of one build."""

    build: str
    """Id of the build."""
    finder: str
    """Address of the folder of the finder's data, from the site's root."""
    several: str
    """Address of the folder of the data for several codes, from the site's root."""
    day: str
    """Day of the build, `2026-03-14`."""

    def by_name(self) -> dict[str, str]:
        """The values by name."""
        return {each.name: getattr(self, each.name) for each in fields(self)}


def marks() -> Stamps:
    """Marks that no author can have written, since they are others in each build: letters and digits only."""
    return Stamps(**{each.name: f"stamp{secrets.token_hex(12)}" for each in fields(Stamps)})


Place = tuple[str, int]
"""The name of a value, and how many of the page's own bytes stand before it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unstamped:
    """A page without the values of a build."""

    parts: tuple[bytes, ...]
    """Its own bytes; between each two of them stands a value."""
    names: tuple[str, ...]
    """What stands between them."""

    @property
    def digest(self) -> str:
        """Of its own bytes: with `places` it tells a page from all others, whatever the values of its build were."""
        digest = sha256()
        for each in self.parts:
            digest.update(each)
        return digest.hexdigest()

    @property
    def places(self) -> tuple[Place, ...]:
        """Where the values go, in their order."""
        return tuple(zip(self.names, accumulate(map(len, self.parts)), strict=False))

    def stamped(self, values: Stamps) -> bytes:
        """The page with the values of a build, as it is published."""
        texts = [getattr(values, each).encode() for each in self.names]
        return b"".join(each for pair in zip_longest(self.parts, texts, fillvalue=b"") for each in pair)


def without_marks(page: bytes, marked: Stamps) -> Unstamped:
    """A page that was made with marks, without them."""
    names = {mark.encode(): name for name, mark in marked.by_name().items()}
    parts = re.split(b"(" + b"|".join(names) + b")", page)
    return Unstamped(parts=tuple(parts[::2]), names=tuple(names[each] for each in parts[1::2]))


def without_values(page: bytes, values: Mapping[str, str], places: Iterable[Place]) -> Unstamped | None:
    """A page as it stands, without the values of its build; None where one does not stand at its place.

    What reads like a value elsewhere is the page's own.
    """
    parts, names, start, own = [], [], 0, 0
    for name, place in places:
        value = values.get(name, "").encode()
        end = start + place - own
        if not value or place < own or not page.startswith(value, end):
            return None
        parts.append(page[start:end])
        names.append(name)
        start, own = end + len(value), place
    return Unstamped(parts=(*parts, page[start:]), names=tuple(names))
