"""What a generated page is, before anything is rendered."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A part of a page that its contents list names."""

    id: str
    """The element's id on the page."""
    title: str
    """Plain text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Crumb:
    """A page above this one."""

    address: str
    """Address from the site's root: `systems/charging/`; empty for the home page."""
    title: str
    """Plain text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PageSpec:
    """One page: its address, its words for the head, and what its template is given."""

    address: str
    """From the site's root, ending in a slash: `faults/battery-flat-overnight/`; empty for the home page."""
    kind: str
    """Name of the page kind, and of its template: `fault` is rendered by `fault.html`."""
    title: str
    """Plain text, hostile until escaped."""
    description: str
    """One sentence for the head, plain text, hostile until escaped."""
    context: Mapping[str, object]
    """What the template is given, by name."""
    edit_path: str | None = None
    """File of the knowledge base that a reader may edit, relative to its folder; None: nothing to edit."""
    crumbs: tuple[Crumb, ...] = ()
    """From the home page down, this page excluded."""
    sections: tuple[Section, ...] = field(default=())
    """For the list of contents, in the order of the page."""
    redirect_to: str | None = None
    """Address to which a browser is sent on at once: an entry's old address."""
    json_ld: Mapping[str, object] | None = None
    """What the page is, for search engines; its texts are plain, hostile until escaped."""
    listed: bool = True
    """Whether search engines and the sitemap should know it; not so for redirects and tombstones."""

    @property
    def source(self) -> str:
        """The name by which a hand-written page links to it."""
        return source_of(self.address)


def source_of(address: str) -> str:
    """The name by which a hand-written page links to a page: `faults/lamp-flickers.md`, `codes/index.md` for a list."""
    if address.count("/") <= 1:
        return f"{address}index.md"
    return f"{address.removesuffix('/')}.md"
