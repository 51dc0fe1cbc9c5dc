"""Which links lead outside, and where each stands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from html.parser import HTMLParser

from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.writing import Writing
from kbtools.text.html import block, web_link


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkPlace:
    """One place where a link stands."""

    path: str
    """File of the knowledge base, relative to its folder."""
    pointer: str
    """JSON pointer of the link, or of the text that has it; empty for a hand-written page."""
    index: int | None = None
    """Of a page: where the link stands in the file, counted in code points from 0."""
    copy_of: str | None = None
    """The link whose archived copy it is."""


@per_base
def outside_links(base: KnowledgeBase) -> Mapping[str, Sequence[LinkPlace]]:
    """Each address of the web that a file names or a text links to, and where; in the order of the files.

    Drafts have links too. What cannot be linked on a page is left out, and so is the club's own site.
    """
    own = base.club.site_url if base.club is not None else None
    found: dict[str, list[LinkPlace]] = {}
    for writing in base.writings.that_may_link():
        for url, place in _links(writing):
            if web_link(url) is not None and not (own and url.startswith(own)):
                found.setdefault(url, []).append(place)
    return found


def archived_copies(base: KnowledgeBase) -> Mapping[str, frozenset[str]]:
    """Link → its archived copies, as the sources have them."""
    found: dict[str, set[str]] = {}
    for url, places in outside_links(base).items():
        for place in places:
            if place.copy_of is not None:
                found.setdefault(place.copy_of, set()).add(url)
    return {url: frozenset(copies) for url, copies in found.items()}


def _links(writing: Writing) -> Iterator[tuple[str, LinkPlace]]:
    if writing.kind == "link":
        fields = dict(zip(writing.pointers, writing.texts, strict=True))
        for pointer, url in fields.items():
            above, _, key = pointer.rpartition("/")
            copied = fields.get(f"{above}/url") if key == "archived" else None
            yield url, LinkPlace(path=writing.path, pointer=pointer, copy_of=copied)
    elif writing.kind in {"words", "page"}:
        for text, pointer in zip(writing.texts, writing.pointers, strict=True):
            for url in _linked(text):
                index = max(text.find(url), 0) + writing.starts[0] if writing.kind == "page" else None
                yield url, LinkPlace(path=writing.path, pointer=pointer, index=index)


def _linked(text: str) -> Sequence[str]:
    """The addresses that a text links to, as a page has them, each once."""
    # Most texts have none, and a look is cheaper than the parser.
    if "http" not in text.lower():
        return ()
    targets = _Targets()
    targets.feed(str(block(text)))
    return tuple(dict.fromkeys(targets.found))


class _Targets(HTMLParser):
    """Collects where links lead."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found += [value for name, value in attrs if tag == "a" and name == "href" and value]
