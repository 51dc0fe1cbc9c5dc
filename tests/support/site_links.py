"""Reads a built site's pages as a browser would, with nothing of the project's own."""

from __future__ import annotations

import posixpath
import re
from dataclasses import dataclass, field
from functools import lru_cache
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

_ADDRESSES = {"href", "src", "action", "data-src", "data-root", "poster", "formaction"}


@dataclass(kw_only=True)
class Parsed:
    """What stands in one page."""

    links: list[str] = field(default_factory=list)
    """`href` of links in the text."""
    addresses: list[tuple[str, str]] = field(default_factory=list)
    """Every address with the tag that has it, for `link` elements with their kind: `link canonical`."""
    ids: list[str] = field(default_factory=list)
    """Ids of its elements."""
    tags: list[str] = field(default_factory=list)
    """All start tags."""
    inline_scripts: int = 0
    """Scripts that stand in the page itself."""
    handlers: list[str] = field(default_factory=list)
    """Attributes that run a script, and styles in attributes."""
    metas: dict[str, str] = field(default_factory=dict)
    """`name` or `http-equiv` of meta elements to their content."""
    titles: list[str] = field(default_factory=list)
    """Texts of `title` elements."""
    words: list[str] = field(default_factory=list)
    """Texts outside the head."""

    @property
    def text(self) -> str:
        """All words, with single spaces."""
        return " ".join(" ".join(self.words).split())


def _addresses(name: str, value: str) -> list[str]:
    """The addresses in an attribute: of `srcset` one for each width (HTML, "Srcset attributes")."""
    if name == "srcset":
        return [each.split()[0] for each in value.split(",") if each.strip()]
    return [value] if name in _ADDRESSES else []


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.parsed = Parsed()
        self._in: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        parsed = self.parsed
        parsed.tags.append(tag)
        parsed.ids += [given["id"]] if "id" in given else []
        named = f"link {given['rel']}" if tag == "link" and "rel" in given else tag
        parsed.addresses += [(named, each) for name, value in given.items() for each in _addresses(name, value)]
        parsed.handlers += [f"{tag} {name}" for name in given if name.startswith("on") or name == "style"]
        if tag == "a" and "href" in given:
            parsed.links.append(given["href"])
        if tag == "script" and "src" not in given and given.get("type") not in _DATA:
            parsed.inline_scripts += 1
        if tag == "meta":
            parsed.metas[given.get("name") or given.get("http-equiv") or ""] = given.get("content", "")
        if tag in {"script", "style", "title", "head"}:
            self._in.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag in self._in:
            self._in.remove(tag)

    def handle_data(self, data: str) -> None:
        if "title" in self._in and "head" in self._in:
            self.parsed.titles.append(data)
        elif not self._in:
            self.parsed.words.append(data)


@lru_cache(maxsize=4096)
def parsed(page: Path) -> Parsed:
    """Read a page; each once, since the sites of tests do not change."""
    return read_html(page.read_text(encoding="utf-8"))


def read_html(html: str) -> Parsed:
    """Read a page, or a piece of one."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return reader.parsed


_DATA = {"application/json", "application/ld+json"}
"""Kinds of scripts that are data blocks, which no browser runs: WHATWG HTML, 4.12.1."""


def acting(page: Parsed) -> list[str]:
    """What a browser would run, or fetch from another host, by itself or where a link is followed."""
    found = ["a script"] * page.inline_scripts + page.handlers
    found += sorted({"iframe", "object", "embed", "base", "style", "math"} & set(page.tags))
    for tag, address in page.addresses:
        # What a browser leaves out before it looks for the scheme: WHATWG URL, 4.4, steps 1 to 3 of the basic parser.
        bare = re.sub(r"[\t\r\n]", "", address.strip("".join(map(chr, range(0x21))))).lower()
        is_other_host = bare.startswith(("http:", "https:", "//", "\\\\", "/\\"))
        runs = bare.startswith(("javascript:", "data:", "vbscript:"))
        if runs or (is_other_host and tag not in {"a", "link canonical", "link alternate"}):
            found.append(f"{tag} {address}")
    return found


def pages(site: Path) -> list[Path]:
    """Every page of a site."""
    return sorted(site.rglob("*.html"))


def target(site: Path, page: Path, address: str) -> tuple[Path, str] | None:
    """The file that an address on a page leads to, and the anchor; None where it leaves the site."""
    parts = urlsplit(address)
    if parts.scheme or parts.netloc:
        return None
    path = unquote(parts.path)
    if not path:
        return page, unquote(parts.fragment)
    start = "/" if path.startswith("/") else f"/{page.parent.relative_to(site).as_posix()}/"
    inside = posixpath.normpath(posixpath.join(start, path)).lstrip("/")
    folder = path.endswith(("/", "/.", "/..")) or path in {".", ".."}
    return site / inside / ("index.html" if folder else ""), unquote(parts.fragment)
