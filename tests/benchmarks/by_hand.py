"""The same text as hand-written pages: what MkDocs with its usual theme is given to build, for comparison."""

from __future__ import annotations

import re
from collections.abc import Iterable
from html.parser import HTMLParser
from pathlib import Path

CONFIG = """\
site_name: By hand
docs_dir: docs
site_dir: site
theme:
  name: material
  font: false
plugins: {plugins}
nav: [index.md]
not_in_nav: "*"
"""

_HEADINGS = {"h1": "# ", "h2": "## ", "h3": "### ", "h4": "#### ", "h5": "##### ", "h6": "###### "}
_BLOCKS = {"p", "div", "section", "ul", "ol", "dl", "dt", "dd", "table", "tr", "figure", "details", "summary", "header"}
_UNSEEN = {"script", "style", "template", "svg"}
_SIGNS = re.compile(r"([\\`*_<\[\]#])")


class _Article(HTMLParser):
    """Collects what is seen of a page's article, as Markdown with headings and lists."""

    def __init__(self) -> None:
        super().__init__()
        self.blocks: list[str] = []
        self._words: list[str] = []
        self._start = ""
        self._inside = 0
        self._unseen = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "article":
            self._inside += 1
        elif tag in _UNSEEN:
            self._unseen += 1
        elif tag in _HEADINGS or tag in _BLOCKS or tag == "li":
            self._flush()
            self._start = _HEADINGS.get(tag, "- " if tag == "li" else self._start)

    def handle_endtag(self, tag: str) -> None:
        if tag == "article":
            self._flush()
            self._inside -= 1
        elif tag in _UNSEEN:
            self._unseen -= 1
        elif tag in _HEADINGS or tag in _BLOCKS or tag == "li":
            self._flush()
            self._start = ""
        elif tag in {"td", "th"}:
            self._words.append(" ")

    def handle_data(self, data: str) -> None:
        if self._inside and not self._unseen:
            self._words.append(data)

    def _flush(self) -> None:
        text = " ".join("".join(self._words).split())
        self._words.clear()
        if text:
            self.blocks.append(self._start + _SIGNS.sub(r"\\\1", text))
            self._start = ""


def markdown(html: str) -> str:
    """The text of a page's article."""
    article = _Article()
    article.feed(html)
    article.close()
    return "\n\n".join(article.blocks) + "\n"


def write_site(folder: Path, built: Path, pages: Iterable[Path], *, search: bool = False) -> int:
    """Write a MkDocs project with one hand-written page for each page of a built site; with the theme's search or not.

    Returns:
        How many pages it has; its start page counts.
    """
    docs = folder / "docs"
    docs.mkdir(parents=True)
    (folder / "mkdocs.yml").write_text(CONFIG.format(plugins="[search]" if search else "[]"), "utf-8")
    (docs / "index.md").write_text("# By hand\n", "utf-8")
    count = 1
    for page in pages:
        place = docs / page.relative_to(built).with_suffix(".md")
        if place == docs / "index.md":
            count -= 1
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text(markdown(page.read_text("utf-8")), "utf-8")
        count += 1
    return count
