"""What changes with each build and stands in every page: it is put in last, so that the rest of a page can be kept.

A page is made with marks in the place of these values. Of a page that stands there already the old values are exchanged
for the new ones; that is done only where every place that reads like a value is one.
"""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass, fields


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamped:
    """A page with its values."""

    content: bytes
    """As it is published."""
    doubtful: tuple[str, ...]
    """Names of the values that also stand where no mark was: the page cannot be given another one."""


def stamped(page: bytes, marked: Stamps, values: Stamps) -> Stamped:
    """The page with the values in the place of the marks."""
    doubtful = []
    texts = values.by_name()
    for name, mark in marked.by_name().items():
        count = page.count(mark.encode())
        page = page.replace(mark.encode(), texts[name].encode())
        if page.count(texts[name].encode()) != count:
            doubtful.append(name)
    return Stamped(content=page, doubtful=tuple(doubtful))


def again(page: bytes, before: Mapping[str, str], values: Stamps, doubtful: tuple[str, ...]) -> bytes | None:
    """A page of an earlier build with the values of this one; None where that cannot be told."""
    for name, value in values.by_name().items():
        old = before.get(name)
        if old == value:
            continue
        if old is None or not old or name in doubtful:
            return None
        page = page.replace(old.encode(), value.encode())
    return page
